/** One button, several inputs: pressed once, twice, three or four times in a row, or held down. */

/** So long a button is held down to count as held, in milliseconds. */
export const HOLD_MS = 500;
/** So soon after letting go the next press belongs to the one before, in milliseconds. */
export const AGAIN_MS = 300;

/** What stands after the button's name, by how it is pressed beyond once. */
export const GESTURE = ["*2", "*3", "*4", "*hold"] as const;
const HELD = "*hold";

/** The input of so many presses: the name alone for one, `PageDown*2` for two. */
const pressed = (name: string, times: number): string => (times === 1 ? name : `${name}*${times}`);

/**
 * Tells the inputs apart. One that no other input of the same button could become is told at once,
 * with the press itself; else it waits for what may still come.
 */
export class Presses {
  private name = "";
  private times = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;

  /**
   * @param wanted whether an input means anything
   * @param tell called with each input that is complete
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

  /** Forget what was begun. */
  drop = (): void => {
    clearTimeout(this.timer);
    this.name = "";
    this.times = 0;
  };

  private moreWanted = (): boolean =>
    GESTURE.some((how, at) => how !== HELD && at + 2 > this.times && this.wanted(this.name + how));

  /** As many presses as there were are all there will be. */
  private settle = (): void => {
    if (this.times > 0) this.finish(pressed(this.name, this.times));
  };

  private finish(input: string): void {
    this.drop();
    if (this.wanted(input)) this.tell(input);
  }
}
