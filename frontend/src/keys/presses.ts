/** Recognises gestures of one button: single to quadruple press, or hold. */

/** Hold threshold. */
export const HOLD_MS = 500;
/** Longest gap between the presses of one gesture. */
export const AGAIN_MS = 300;

/** Suffixes of an input's name, by gesture. */
export const GESTURE = ["*2", "*3", "*4", "*hold"] as const;
const HELD = "*hold";

/** Input name of `times` presses: the key's name for one, `PageDown*2` for two. */
const pressed = (name: string, times: number): string => (times === 1 ? name : `${name}*${times}`);

/** Emits an input at once if no longer gesture of the button is bound, else after the time-out. */
export class Presses {
  private name = "";
  private times = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /**
   * @param wanted whether an input is bound
   * @param tell called with each completed input
   */
  constructor(
    private readonly wanted: (input: string) => boolean,
    private readonly tell: (input: string) => void,
  ) {}

  down = (name: string): void => {
    if (name !== this.name) this.settle();
    clearTimeout(this.timer);
    this.name = name;
    this.times += 1;
    if (this.times === 1 && this.wanted(name + HELD)) {
      this.timer = setTimeout(() => this.finish(name + HELD), HOLD_MS);
    } else if (!this.moreWanted()) this.settle();
  };

  up = (name: string): void => {
    if (name !== this.name) return;
    clearTimeout(this.timer);
    if (this.moreWanted()) this.timer = setTimeout(this.settle, AGAIN_MS);
    else this.settle();
  };

  /** Abandon the current gesture. */
  drop = (): void => {
    clearTimeout(this.timer);
    this.name = "";
    this.times = 0;
  };

  private moreWanted = (): boolean =>
    GESTURE.some((how, at) => how !== HELD && at + 2 > this.times && this.wanted(this.name + how));

  /** Complete the gesture with the presses so far. */
  private settle = (): void => {
    if (this.times > 0) this.finish(pressed(this.name, this.times));
  };

  private finish(input: string): void {
    this.drop();
    if (this.wanted(input)) this.tell(input);
  }
}
