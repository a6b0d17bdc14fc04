/** What the server tells of a lesson afterwards and of a fencer over time, by the app's names. */
import type { Replies } from "../device/api-types";

export type HeatEffect = Replies["HeatEffect"];
export type AfterRung = Replies["RungGiven"];
export type OrderTold = Replies["Order"];
export type Agreed = Replies["Agreed"];
export type DrillTold = Replies["DrillAfter"];
export type AfterTold = Replies["After"];
export type Reach = Replies["Reach"];

/** Figures lesson by lesson. */
export type ByLesson<Row> = Pick<Replies["Comfort"], "words"> & { rows: Row[] };

type Newer = "by_lesson" | "by_giver" | "where" | "strangers" | "first_cue";

/** Some parts are missing in a reply kept from an older server. */
export type DrillStory = Omit<Replies["DrillStory"], Newer> &
  Partial<Pick<Replies["DrillStory"], Newer>>;

type NewerParts = "comfort" | "notes" | "bouts";

/** Some parts are missing in a reply kept from an older server. */
export type Story = Omit<Replies["Story"], NewerParts | "drills"> &
  Partial<Pick<Replies["Story"], NewerParts>> & { drills: DrillStory[] };

export type OddsRow = Replies["OddsRow"];
export type Odds = Replies["Odds"];
export type RuleSetting = Replies["RuleSetting"];
export type RuleSettingsTold = Replies["RuleSettings"];
export type Spread = Replies["Spread"];
export type WhatIfTold = Replies["WhatIfReply"];
export type Effect = Replies["Effect"];
export type Versions = Replies["Versions"];
