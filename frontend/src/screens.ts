/** Every screen but Today and the strip, which the app brings along. */
import type { ComponentType } from "preact";

export const SCREENS = {
  signIn: () => import("./access/SignIn").then((file) => file.SignIn as ComponentType),
  evenings: () => import("./evenings/Evenings").then((file) => file.Evenings as ComponentType),
  fencer: () => import("./fencers/Fencer").then((file) => file.FencerPage as ComponentType),
  rules: () => import("./rules-page/Rules").then((file) => file.Rules as ComponentType),
  bout: () => import("./bout/Bout").then((file) => file.Bout as ComponentType),
  card: () => import("./partner/Card").then((file) => file.Card as ComponentType),
  partner: () => import("./partner/Partner").then((file) => file.Partner as ComponentType),
  person: () => import("./fencers/Person").then((file) => file.Person as ComponentType),
  imports: () => import("./fencers/Imports").then((file) => file.Imports as ComponentType),
  fencers: () => import("./fencers/Fencers").then((file) => file.Fencers as ComponentType),
  drills: () => import("./drills/Drills").then((file) => file.Drills as ComponentType),
  drill: () => import("./drills/DrillPage").then((file) => file.DrillPage as ComponentType),
  write: () => import("./drills/DrillEditor").then((file) => file.DrillEditor as ComponentType),
  settings: () => import("./settings/Settings").then((file) => file.Settings as ComponentType),
  club: () => import("./club/Club").then((file) => file.ClubPage as ComponentType),
  learning: () => import("./club/Learning").then((file) => file.Learning as ComponentType),
  after: () => import("./after/After").then((file) => file.After as ComponentType),
  watch: () => import("./watch/Watch").then((file) => file.Watch as ComponentType),
  setup: () => import("./access/Doors").then((file) => file.Setup as ComponentType),
  join: () => import("./access/Doors").then((file) => file.Join as ComponentType),
  reset: () => import("./access/Doors").then((file) => file.Reset as ComponentType),
  pair: () => import("./access/Doors").then((file) => file.Pair as ComponentType),
  people: () => import("./access/People").then((file) => file.People as ComponentType),
  passphrase: () => import("./access/Passphrase").then((file) => file.Passphrase as ComponentType),
  devices: () => import("./access/Devices").then((file) => file.Devices as ComponentType),
  records: () => import("./records/ClubRecords").then((file) => file.ClubRecords as ComponentType),
  record: () => import("./records/RecordPage").then((file) => file.RecordPage as ComponentType),
};

export type ScreenName = keyof typeof SCREENS;
