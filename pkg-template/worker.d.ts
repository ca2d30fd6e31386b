import type {
  CallOptions, CheckOptions, CheckReport, DrawOptions, DrawSectionsOptions, DrawnSection, Figure, FrameNumbers, FrameOptions, FrameReport, ScoreOptions, ScoreReport, Source, StepsOptions, StepsReport, TidyOptions,
  TraceOptions, TraceReport,
} from "./index.js";

/** How to open a worker. */
export interface WorkerOptions {
  /** Where the module is; without it, beside this file. */
  source?: Source;
  /**
   * A worker that runs `worker-thread.js`, for bundlers that do not follow `new URL(.., import.meta.url)`.
   * Without it one is started from the file beside this one.
   */
  worker?: WorkerLike;
  /** Drops a call that still waits when the same function is called again: its promise fails with `dropped`. */
  newest?: boolean;
}

/** The part of a `Worker` that is used. */
export interface WorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  addEventListener(type: "message", listener: (event: { data: never }) => void): void;
  addEventListener(type: "error", listener: (event: { message?: string }) => void): void;
}

/** The package's functions, carried out in a worker one after the other. */
export interface WorkerDesk {
  check(text: string, options?: CheckOptions | null): Promise<CheckReport>;
  trace(text: string, options?: TraceOptions | null): Promise<TraceReport>;
  frames(text: string, options?: FrameOptions | null): Promise<FrameReport>;
  frameNumbers(text: string, options?: FrameOptions | null): Promise<FrameNumbers>;
  steps(text: string, options?: StepsOptions | null): Promise<StepsReport>;
  score(text: string, options?: ScoreOptions | null): Promise<ScoreReport>;
  draw(text: string, options?: DrawOptions | null): Promise<string>;
  drawSections(text: string, options?: DrawSectionsOptions | null): Promise<DrawnSection[]>;
  call(text: string, options: CallOptions & { format: "midi"; plan?: false | null }): Promise<Uint8Array>;
  call(text: string, options?: (CallOptions & { format?: "text" | "webvtt" | null }) | null): Promise<string>;
  tidy(text: string, options?: TidyOptions | null): Promise<string>;
  figures(): Promise<Figure[]>;
  figures(name: string): Promise<Figure>;
  /** Ends the worker. Calls that wait fail with `closed`. */
  close(): void;
}

/** Opens a worker and gives it the compiled module. */
export function openWorker(options?: WorkerOptions): Promise<WorkerDesk>;
