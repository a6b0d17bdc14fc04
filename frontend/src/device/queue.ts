/** Sync queue: pushes and fetches one run at a time, with backoff; never drops an event. */
import { localDay } from "../rules/days";
import type { LessonEvent } from "../rules/events";
import { type Api, NoAnswer, Problem } from "./api";
import type { Outbox } from "./outbox";
import type { PushReply, Session } from "./types";

const BATCH = 200;
/** Debounce after a mark, so that no reply is handled while the coach taps … */
const SOON_MS = 1_000;
/** … up to this long after the first unsent mark. */
const LATEST_MS = 20_000;

export type SyncState =
  /** Nothing tried yet. */
  | "new"
  | "sending"
  /** The last run settled everything. */
  | "done"
  /** No reply; will be retried. */
  | "away"
  | "signin"
  /** The browser is signed in as another coach. */
  | "other"
  /** An error reply; will be retried. */
  | "trouble";

export interface SyncStatus {
  state: SyncState;
  detail: string;
  /** Device time of the last reply in ms. */
  answered: number | null;
}

interface QueueDeps {
  outbox: Outbox;
  api: Api;
  /** The coach signed in on this phone, or null. */
  coach(): string | null;
  /** Sends what must precede the events; resolves to whether anything was accepted. */
  first?(coach: string): Promise<boolean>;
  status(status: SyncStatus): void;
  /** Called once the server has confirmed the signed-in coach. */
  confirmed?(session: Session): Promise<void> | void;
  changed(what: "sent" | "fetched", reply?: PushReply): Promise<void> | void;
  /** Backoff in ms: doubled after each failure up to `most`; `idle` between runs that succeed. */
  delay?: { first: number; most: number; idle: number };
}

export class Queue {
  #flight: Promise<void> | null = null;
  #again: "none" | "push" | "all" = "none";
  #confirmed = false;
  #failures = 0;
  #soon: ReturnType<typeof setTimeout> | undefined;
  #marked = 0;
  #latest = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #status: SyncStatus = { state: "new", detail: "", answered: null };
  #delay: { first: number; most: number; idle: number };

  constructor(readonly deps: QueueDeps) {
    this.#delay = deps.delay ?? { first: 4_000, most: 300_000, idle: 120_000 };
  }

  get status(): SyncStatus {
    return this.#status;
  }

  /** Send now; `all` also fetches. During a run, another is scheduled to follow. */
  kick(what: "push" | "all" = "push"): Promise<void> {
    if (this.#flight !== null) {
      if (this.#again !== "all") this.#again = what;
      return this.#flight;
    }
    this.#flight = this.#run(what).finally(() => {
      this.#flight = null;
    });
    return this.#flight;
  }

  /** Send after the debounce, so that drawing and further marks go first. */
  soon(): void {
    this.#marked = Date.now();
    if (this.#soon !== undefined) return;
    this.#latest = this.#marked + LATEST_MS;
    this.#kickIn(SOON_MS);
  }

  #kickIn(wait: number): void {
    this.#soon = setTimeout(() => {
      this.#soon = undefined;
      const left = Math.min(this.#marked + SOON_MS, this.#latest) - Date.now();
      if (left > 0) this.#kickIn(left);
      else void this.kick();
    }, wait);
  }

  /** Invalidate the confirmed session: it is checked again before the next push. */
  doubt(): void {
    this.#confirmed = false;
  }

  /** Sync at start, on `online`, and when the page becomes visible. */
  attend(page: Window): void {
    const all = () => void this.kick("all");
    page.addEventListener("online", all);
    page.document.addEventListener("visibilitychange", () => {
      this.doubt();
      if (page.document.visibilityState === "visible") all();
    });
    all();
  }

  stop(): void {
    clearTimeout(this.#timer);
    clearTimeout(this.#soon);
  }

  async #run(first: "push" | "all"): Promise<void> {
    clearTimeout(this.#timer);
    let what = first;
    let wait = this.#delay.idle;
    do {
      this.#again = "none";
      try {
        await this.#fly(what);
        this.#failures = 0;
        wait = this.#delay.idle;
      } catch (error) {
        wait = this.#failed(error);
      }
      what = this.#again === "none" ? what : this.#again;
    } while (this.#again !== "none" && this.#failures === 0);
    this.#timer = setTimeout(() => void this.kick("all"), wait);
    (this.#timer as { unref?: () => void }).unref?.();
  }

  async #fly(what: "push" | "all"): Promise<void> {
    const coach = this.deps.coach();
    if (coach === null) return this.#report("signin");
    this.#report("sending");
    if (!this.#confirmed) {
      const session = await this.deps.api.get<Session>("/api/session");
      if (session.coach.id !== coach) return this.#report("other", session.coach.name);
      await this.deps.confirmed?.(session);
      this.#confirmed = true;
    }
    const news = (await this.deps.first?.(coach)) ?? false;
    await this.#push(coach);
    if (what === "all" || news) await this.#fetch();
    this.#status = { ...this.#status, answered: Date.now() };
    this.#report("done");
  }

  async #push(coach: string): Promise<void> {
    let most = BATCH;
    for (;;) {
      const batch = await this.deps.outbox.batch(coach, most);
      if (batch.length === 0 || this.deps.coach() !== coach) return;
      const reply = await this.#offer(batch);
      if (reply === null) {
        most = Math.max(1, Math.floor(batch.length / 2));
        continue;
      }
      const named = new Set(reply.results.map((one) => one.id));
      if (!batch.some((event) => named.has(event.id))) {
        throw new NoAnswer("the reply named none of the events sent");
      }
      await this.deps.outbox.settle(reply);
      await this.deps.changed("sent", reply);
    }
  }

  /** Push a batch; null if it must be split. A single event the server rejects is refused. */
  async #offer(batch: LessonEvent[]): Promise<PushReply | null> {
    try {
      return await this.deps.api.send<PushReply>("POST", "/api/events", { events: batch });
    } catch (error) {
      if (!(error instanceof Problem) || ![400, 413, 422].includes(error.status)) throw error;
      const [only] = batch;
      if (batch.length > 1 || only === undefined) return null;
      const why = Object.keys(error.errors).length > 0 ? error.errors : { event: [error.message] };
      return {
        results: [{ id: only.id, status: "refused", why }],
        lessons: [],
        standings: [],
        seq: 0,
      };
    }
  }

  async #fetch(): Promise<void> {
    const { api, outbox, changed } = this.deps;
    // loaded on demand: no mark needs it
    const { Intake } = await import("./intake");
    await new Intake(outbox).fetch(api, localDay(new Date()), () => changed("fetched"));
  }

  /** Record a failed run. @returns ms until the next try */
  #failed(error: unknown): number {
    this.#failures += 1;
    const { first, most } = this.#delay;
    const wait = Math.min(most, first * 2 ** (this.#failures - 1)) * (0.75 + Math.random() / 2);
    if (error instanceof Problem) {
      this.#status = { ...this.#status, answered: Date.now() };
      if (error.status === 401) {
        this.#confirmed = false;
        this.#report("signin");
      } else this.#report("trouble", error.message);
      return Math.max(wait, (error.retryAfter ?? 0) * 1000);
    }
    this.#report(error instanceof NoAnswer ? "away" : "trouble", String((error as Error).message));
    return wait;
  }

  #report(state: SyncState, detail = ""): void {
    this.#status = { ...this.#status, state, detail };
    this.deps.status(this.#status);
  }
}
