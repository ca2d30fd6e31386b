import type { FrameNumbers, FrameOptions } from "./index.js";

/** What the element needs: `frameNumbers` of this package, or of a worker. */
export interface FloorSource {
  frameNumbers(text: string, options?: FrameOptions): FrameNumbers | Promise<FrameNumbers>;
}

/** A floor on which the footprints of a dance are shown, with buttons to play, pause and step. */
export interface HalfcountFloor {
  /** The sheet. The attribute of the same name, or else the text inside the element, is the first value. */
  text: string;
  /** Counts a minute; 100 without it. Also an attribute. */
  bpm: number;
  /** The moment shown, in counts; 0 is the position before the first step. */
  count: number;
  /** Whether it is moving. */
  readonly playing: boolean;
  /** Plays from the moment shown, or from the start if that was the end. */
  play(): void;
  /** Stops at the moment shown. */
  pause(): void;
  /** Goes so many half-counts on, or back where the number is below 0. */
  step(halves?: number): void;
}

/**
 * Makes the element known to the page, once for each name. The page gets events `halfcount-moment` with
 * `{ detail: { count } }` whenever another half-count is shown.
 */
export function defineFloor(source: FloorSource, name?: `${string}-${string}`): void;
