/** Icons of marks and moves, so that nothing depends on colour alone. */
import type { Mark, Move } from "../rules/chart";

const MARKS: Record<Mark, string> = {
  correct: "M4 17 L13 26 L29 7 L24.5 3.5 L12.6 18 L8 13 Z",
  late: "M5 3 H27 V8 L19 16 L27 24 V29 H5 V24 L13 16 L5 8 Z",
  early:
    "M16 1 L19.5 10 L29 6 L24 14.5 L31 20 L22 20.5 L21 30 L15 22.5 L7 28 L9.5 19 L1 16 L10 12.5 L7 4 L14 9.5 Z",
  decoy: "M16 1 L31 16 L16 31 L1 16 Z M16 9 L9 16 L16 23 L23 16 Z",
};

const MOVES: Record<Move, string> = {
  stay: "M16 4 A12 12 0 1 0 28 16 H23 A7 7 0 1 1 16 9 V14 L25 6.5 L16 -1 Z",
  climb: "M16 3 L29 18 H21 V29 H11 V18 H3 Z",
  back: "M16 29 L3 14 H11 V3 H21 V14 H29 Z",
  rest: "M5 5 H27 V27 H5 Z",
};

const Shape = ({ d }: { d: string }) => (
  <svg class="shape" viewBox="0 0 32 32" aria-hidden="true" focusable="false">
    <path d={d} fill="currentColor" fill-rule="evenodd" />
  </svg>
);

export const MarkShape = ({ mark }: { mark: Mark }) => <Shape d={MARKS[mark]} />;
export const MoveShape = ({ move }: { move: Move }) => <Shape d={MOVES[move]} />;

/** Back arrow. */
export const Back = () => (
  <svg viewBox="0 0 24 24" aria-hidden="true" focusable="false">
    <path d="M15 4 L7 12 L15 20" />
  </svg>
);
