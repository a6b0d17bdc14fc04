/** A part of a plan: its role, drill and minutes. */
import type { Part } from "../app/plans";
import { drillOf } from "../app/state";
import { minutesOf, roleName } from "../choose/partWords";

export const PartName = ({ part }: { part: Part }) => (
  <>
    <span class="role">{roleName(part)}</span>
    <span class="what">{drillOf(part.drill)?.name ?? part.told?.name}</span>
    <span class="soft">{minutesOf(part)}</span>
  </>
);
