/**
 * Where the module comes from: an address, a `Request`, a `Response`, its bytes, a compiled
 * `WebAssembly.Module`, or a promise of one of these. Types of the page are not named here, so that the package
 * compiles without them.
 */
export type Source = string | object | Promise<string | object>;

/**
 * Loads and starts the module. Every call after the first gives the same promise, and one that failed may be
 * repeated. Without a source the file beside the package's script is taken.
 */
export default function init(source?: Source): Promise<void>;
export { init };

/**
 * Starts the module at once from its bytes or a compiled `WebAssembly.Module`. In Node the source may be left
 * out.
 */
export function initSync(source?: ArrayBuffer | ArrayBufferView | object): void;

/** Why a call was refused. */
export type HalfcountErrorCode =
  /** A function was called before `init` had finished. */
  | "not-ready"
  /** The module could not be fetched, compiled or started. */
  | "not-loaded"
  /** The sheet is no string. */
  | "text-not-a-string"
  /** The sheet is longer than 1 MiB of UTF-8. */
  | "text-too-long"
  /** No plain words say the dance on the other foot; only from `tidy` with `mirror`. */
  | "not-mirrored"
  /** The options are no object. */
  | "options-not-an-object"
  /** There is no option of this name. */
  | "option-unknown"
  /** An option has a value that it does not take. */
  | "option-wrong"
  /** The name of a figure is no string. */
  | "name-not-a-string"
  /** No figure has this name. */
  | "figure-unknown"
  /** A newer call took the place of this one; only in a worker opened with `newest`. */
  | "dropped"
  /** The worker has been closed. */
  | "closed"
  /** A fault of halfcount itself. The next call starts afresh. */
  | "broken";

/** Every error that this package throws. */
export class HalfcountError extends Error {
  readonly name: "HalfcountError";
  /** Never changes; the message may. */
  readonly code: HalfcountErrorCode;
}

/** A foot: right or left. */
export type Foot = "R" | "L";

/** Where the weight is: on one foot, or on both. */
export type Weight = Foot | "B";

/** `error`: cannot be danced as written; `warning`: most likely a slip; `note`: worth knowing. */
export type Severity = "error" | "warning" | "note";

/** `sure`: something else in the sheet says so; `choice`: only the author can know. */
export type Sureness = "sure" | "choice";

/** What of a foot is on the floor. */
export type Sole = "flat" | "ball" | "heel" | "toe" | "edge" | "air";

/** The dancer's body. Whatever is left out follows from the stature. */
export interface BodyOptions {
  /** Height in metres, 1 to 2.3; 1.70 without it. */
  stature?: number | null;
  /** From heel to toe in metres, 0.1 to 0.4. */
  footLength?: number | null;
  /** Across the ball of the foot in metres, 0.03 to 0.2. */
  footBreadth?: number | null;
  /** Across the hips in metres, 0.15 to 0.6. */
  hipBreadth?: number | null;
  /** From the floor to the hip joint in metres, 0.4 to 1.4. */
  legLength?: number | null;
  /** How far one hip turns the leg outward, 0 to 90 degrees. */
  turnOut?: number | null;
  /** How far one hip turns the leg inward, 0 to 90 degrees. */
  turnIn?: number | null;
}

/** Options of `check`. */
export interface CheckOptions {
  /** Name of the sheet, given back as it is. Without one it is `-`. */
  file?: string | null;
  /** Rules that are to say nothing. */
  allow?: readonly string[] | null;
  /** The dancer that is meant; a person of 1.70 m without it. */
  body?: BodyOptions | null;
}

/** What `check` gives. All places count UTF-16 units, as JavaScript's strings and editors do. */
export interface CheckReport {
  /** Name of the sheet as given. */
  file: string;
  /** Title as written. */
  title: string;
  /** Findings of severity `error`. */
  errors: number;
  /** Findings of severity `warning`. */
  warnings: number;
  /** Findings of severity `note`. */
  notes: number;
  /** In order of their place in the text. */
  findings: Finding[];
  /** Words of step lines that were not understood. */
  unread: Unread[];
}

/** Something about the sheet that a dancer should know. */
export interface Finding {
  /** The rule's name. */
  rule: string;
  severity: Severity;
  /** `main`, or the name of the tag or ending. */
  part: string;
  /** Section from 1. */
  section: number | null;
  /** Count within the section: `3`, `3&`. */
  count: string | null;
  /** Line from 1. */
  line: number;
  /** Column from 1, in characters. */
  column: number;
  /** First UTF-16 unit of the words. */
  start: number;
  /** One past their last unit: `text.slice(start, end)` are the words. */
  end: number;
  /** A sentence for a dance teacher. */
  message: string;
  /** Mends, the cheapest first. Each was read again and proven to remove the finding. */
  fixes: Fix[];
  /** Other places that have to do with it. */
  related: Related[];
}

/** A proven mend. */
export interface Fix {
  /** What it does. */
  title: string;
  sureness: Sureness;
  /** Sorted and apart from each other. */
  edits: Edit[];
}

/** One change of the text. */
export interface Edit {
  /** First UTF-16 unit replaced. */
  start: number;
  /** One past the last unit replaced. */
  end: number;
  /** The new words. */
  text: string;
}

/** Another place in the sheet. */
export interface Related {
  /** First UTF-16 unit. */
  start: number;
  /** One past the last unit. */
  end: number;
  /** Why it is shown. */
  label: string;
}

/** Words that were not understood. */
export interface Unread {
  /** Line from 1. */
  line: number;
  /** Column from 1, in characters. */
  column: number;
  /** The words. */
  text: string;
}

/** Options of `trace`. */
export interface TraceOptions {
  /** Name of the sheet, given back as it is. Without one it is `-`. */
  file?: string | null;
  /** The dancer that is meant; a person of 1.70 m without it. */
  body?: BodyOptions | null;
}

/**
 * What `trace` gives. `JSON.stringify` of it is the line that `halfcount trace` prints; so its findings have
 * their places in bytes of UTF-8. Those of `check` suit JavaScript.
 */
export interface TraceReport {
  /** Name of the sheet as given. */
  file: string;
  /** Title as written. */
  title: string;
  /** Counts of one repetition. */
  counts: number;
  /** Walls. */
  walls: number;
  /** Level in lower case. */
  level: string;
  /** The foot that acts first. */
  start_foot: Foot | null;
  /** Beats in a bar. */
  beats_per_bar: number;
  /** Sections of one repetition in order. */
  sections: TraceSection[];
  /** Tags in order of the song, one entry a wall. */
  tags: TraceTag[];
  /** Restarts in order of the song. */
  restarts: TraceRestart[];
  /** Figures in order, by name, leading foot and turn. */
  figures: string[];
  /** In order of their place in the text. */
  findings: TraceFinding[];
  /** Words of step lines that were not understood. */
  unread: Unread[];
  /** The floor that the dance needs. */
  floor: TraceFloor;
}

/**
 * The floor that a dance needs, in centimetres, seen by a dancer who faces 12:00: a body of 1.70 m with steps of
 * usual lengths.
 */
export interface TraceFloor {
  /** From left to right, one repetition with feet and shoulders. */
  width_cm: number;
  /** From back to front. */
  depth_cm: number;
  /** How far one repetition moves the dancer to the right, negative to the left. */
  right_cm: number;
  /** How far one repetition moves the dancer forward, negative back. */
  forward_cm: number;
  /** The same for the song, with its walls, tags and restarts. */
  song_right_cm: number;
  /** The same for the song. */
  song_forward_cm: number;
  /** How far from the start the dancer ever gets in the song. */
  farthest_cm: number;
  /** Repetitions of the song. */
  song_walls: number;
  /** Neighbours whose centres are nearer meet, even in unison. */
  beside_cm: number;
  /** The same for rows. */
  behind_cm: number;
}

/** A section of the dance. */
export interface TraceSection {
  /** Its counts. */
  counts: number;
  /** Its count positions: `1R 2L 3- &R 4L`. */
  trace: string;
  /** Clock at its end in the first repetition: `9:00`. */
  facing_end: string;
  weight_end: Weight;
}

/** A tag at its place in the song. */
export interface TraceTag {
  /** The repetition after which, or inside which, it is danced. */
  after_wall: number;
  /** Its counts. */
  counts: number;
  /** Its count positions. */
  trace: string;
  /** Clock in the room when it starts. */
  facing: string | null;
  /** Clock in the room when it ends. */
  facing_end: string | null;
  weight_end: Weight | null;
}

/** A repetition that is broken off. */
export interface TraceRestart {
  /** The repetition. */
  wall: number;
  /** Counts danced before the dance starts again. */
  after_counts: number;
  /** Clock in the room when the dance starts again. */
  facing: string | null;
  /** The last section as then danced, where the restart changes its steps. */
  changed_trace?: string;
}

/** A finding with its places in bytes of UTF-8. */
export type TraceFinding = Omit<Finding, "related">;

/** Options of `frames` and `frameNumbers`. */
export interface FrameOptions {
  /** Name of the sheet, given back as it is. Without one it is `-`. */
  file?: string | null;
  /** Rows for each count; 2 without it. */
  perCount?: 1 | 2 | 3 | 4 | 6 | 8 | 12 | 24 | null;
  /** Repetitions of the dance, 1 to 64; 1 without it. */
  walls?: number | null;
  /** The dancer that is meant; a person of 1.70 m without it. */
  body?: BodyOptions | null;
}

/** What `frames` gives. */
export interface FrameReport {
  /** Name of the sheet as given. */
  file: string;
  /** From the position before the first step to the end of the last count. */
  frames: Frame[];
}

/** Both feet at one moment. Metres are counted from where the dance begins, degrees clockwise from 12:00. */
export interface Frame {
  /** Name of the part: `main`, `A`, `tag 1`. */
  part: string;
  /** Section of the part, from 1. */
  section: number;
  /** Count within the section: `3`, `3&`. */
  count: string;
  /** 24 times the running count of the dance. */
  tick: number;
  /** Facing in degrees. */
  facing: number;
  /** Ball of the left foot toward 3:00, in metres. */
  left_x: number;
  /** Ball of the left foot toward 12:00, in metres. */
  left_y: number;
  /** Toe of the left foot in degrees. */
  left_toe: number;
  /** What of the left foot is on the floor. */
  left_sole: Sole;
  /** Share of the weight on the left foot, 0 to 1. */
  left_weight: number;
  /** Ball of the right foot toward 3:00, in metres. */
  right_x: number;
  /** Ball of the right foot toward 12:00, in metres. */
  right_y: number;
  /** Toe of the right foot in degrees. */
  right_toe: number;
  /** What of the right foot is on the floor. */
  right_sole: Sole;
  /** Share of the weight on the right foot, 0 to 1; both shares add up to 1. */
  right_weight: number;
}

/** The columns of `FrameNumbers` in their order, which are the fields of `Frame`. */
export type FrameColumns = [
  "part", "section", "count", "tick", "facing",
  "left_x", "left_y", "left_toe", "left_sole", "left_weight",
  "right_x", "right_y", "right_toe", "right_sole", "right_weight",
];

/**
 * What `frameNumbers` gives: the rows of `frames` as one array, for animation. Column `c` of row `r` is
 * `numbers[r * columns.length + c]`.
 */
export interface FrameNumbers {
  /** Name of the sheet as given. */
  file: string;
  /** What stands in a row. */
  columns: FrameColumns;
  /** Names of the parts; the column `part` counts them from 0. */
  parts: string[];
  /** What the columns `left_sole` and `right_sole` count from 0. */
  soles: ["flat", "ball", "heel", "toe", "edge", "air"];
  /** Rows for each count. */
  per_count: number;
  /** Rows. */
  rows: number;
  /** Row after row. The column `count` is a number here: 3.5 for `3&`. */
  numbers: Float64Array;
}

/** Options of `score`. */
export interface ScoreOptions {
  /** Name of the sheet, given back as it is. Without one it is `-`. */
  file?: string | null;
  /** Beats a minute instead of what the sheet says, 20 to 400. */
  bpm?: number | null;
  /** The dancer that is meant; a person of 1.70 m without it. */
  body?: BodyOptions | null;
}

/** A level's name. */
export type Level = "absolute beginner" | "beginner" | "improver" | "intermediate" | "advanced";

/**
 * What `score` gives. `JSON.stringify` of it is the line that `halfcount score --format json` prints. The score
 * is provisional: use it to compare and to argue, not to rule.
 */
export interface ScoreReport {
  /** Name of the sheet as given. */
  file: string;
  /** Title as written. */
  title: string;
  /** Always true as long as the weights come from few and invented labels. */
  provisional: boolean;
  /** The name of the weights. */
  weights: string;
  /** The name of the levels' scale. */
  scale: string;
  /** Beats a minute that it holds for. */
  tempo: number;
  /** Whether the sheet or the caller gave the tempo. */
  tempo_given: boolean;
  /** 0 to 100; null where part of the sheet could not be read. */
  score: number | null;
  /** The lower end of its range. */
  low: number;
  /** The upper end of its range. */
  high: number;
  /** Why there are bounds and no number. */
  bounds: string | null;
  level: Level | null;
  /** The chances of all levels. */
  chances: { level: Level; chance: number }[];
  /** What each family of measures adds. */
  parts: ScorePart[];
  /** All measures. */
  measures: ScoreMeasure[];
  /** Points of each count of one repetition. */
  profile: number[];
  /** Points that are in no single place. */
  unplaced: number;
  /** The hardest eight counts. */
  hardest: ScoreStretch | null;
  /** The same dance danced otherwise. */
  others: { how: string; score: number }[];
  /** Easier options that the sheet states; the score is null where one could not be read. */
  easier: { words: string; score: number | null }[];
  /** What the score cannot see. */
  blind: string[];
}

/** What a family of measures adds to the score. */
export interface ScorePart {
  /** The family. */
  part: string;
  /** Its points. */
  points: number;
  /** Its share of all points, 0 to 1. */
  share: number;
}

/** A measure and what it adds. The last five are null where it is only reported. */
export interface ScoreMeasure {
  /** Its name. */
  name: string;
  /** Its family. */
  part: string;
  /** Its unit. */
  unit: string;
  /** Its value. */
  value: number;
  /** Whether it enters the score. */
  scored: boolean;
  /** Up to here it adds nothing. */
  floor: number | null;
  /** How much of the unit makes a notch. */
  notch: number | null;
  /** How notches add up. */
  curve: string | null;
  /** Points for a notch. */
  weight: number | null;
  /** Points that it adds. */
  points: number | null;
}

/** Counts in a row. */
export interface ScoreStretch {
  /** First running count. */
  from: number;
  /** Last running count. */
  to: number;
  /** Their points. */
  points: number;
  /** Their words in the sheet, with places in bytes of UTF-8 as the command prints them. */
  words: ScoreWords[];
}

/** Words of the sheet. */
export interface ScoreWords {
  /** Line from 1. */
  line: number;
  /** Column from 1, in characters. */
  column: number;
  /** First byte. */
  start: number;
  /** One past the last byte. */
  end: number;
  /** The words. */
  text: string;
}

/** What stands at the top of a drawing: 12:00, the wall that the dancer faces, or 6:00 as a teacher in front sees it. */
export type View = "room" | "dancer" | "teacher";

/** Options of `drawSections`. */
export interface DrawSectionsOptions {
  /** What stands at the top; `room` without it. */
  view?: View | null;
  /** Small drawings, one for each count and each half-count on which something is done. */
  strip?: boolean | null;
  /** Drawings beside each other, 1 to 8; 2 without it. */
  columns?: number | null;
  /** Width in CSS pixels, a whole number; without it a drawing fills what it stands in. */
  width?: number | null;
  /** Set before each id, so that several drawings can stand on one page. */
  prefix?: string | null;
  /** The dancer that is meant; a person of 1.70 m without it. */
  body?: BodyOptions | null;
}

/** Options of `draw`. */
export interface DrawOptions extends DrawSectionsOptions {
  /** Only one moment, by the running count of the dance: `12`, `12&`. */
  count?: string | null;
  /** A page to print, in HTML: head, figures to know first, all sections, cautions. */
  page?: "a4" | "letter" | null;
}

/** A drawing with the same content in words, for those who do not see it. */
export interface DrawnSection {
  /** `Section 2`, `Tag 1`. */
  title: string;
  /** The part that it shows. */
  part: string;
  /** The section of that part, from 1. */
  section: number;
  /** The drawing. Each step has its words as `data-start` and `data-end` in UTF-16. */
  svg: string;
  /** Its content, a sentence for each step. */
  sentences: DrawnStep[];
}

/** What happens at one moment, in words. */
export interface DrawnStep {
  /** Count within the section: `3&`. */
  count: string;
  /** The step in few words: `step R forward`. */
  words: string;
  /** The whole sentence, with the weight after it. */
  sentence: string;
  /** First UTF-16 unit of the sheet's words that it comes from. */
  start: number;
  /** One past their last unit. */
  end: number;
}

/** Options of `call`. Times are written as `3:30` or given in seconds. */
export interface CallOptions {
  /** A page to call from, captions for a practice video, or a click track; `text` without it. */
  format?: "text" | "webvtt" | "midi" | null;
  /** A lesson plan instead: figures to know, order of teaching, where people go wrong. */
  plan?: boolean | null;
  /** Beats a minute, 20 to 400, with changes at counts of the music if need be: `"104,112@129"`. */
  bpm?: number | string | null;
  /** Counts of music before the first step. */
  intro?: number | null;
  /** How long the music is from its first count: a time, or counts as `"416c"`. */
  length?: number | string | null;
  /** The phrases of the music after the intro, in counts. */
  phrases?: readonly number[] | null;
  /** How the teacher stands: back to the class, or facing it as its mirror image. */
  view?: "same" | "facing" | null;
  /** Captions: time of the video before the music begins, negative where the video begins later. */
  offset?: number | string | null;
  /** Captions: from this time of the video on. */
  from?: number | string | null;
  /** Captions: up to this time of the video. */
  to?: number | string | null;
  /** Captions: the calls alone, without the counts. */
  noCounts?: boolean | null;
  /** Clicks: how many counts before the first step are heard, instead of the whole intro. */
  countIn?: number | null;
  /** Clicks: without the calls as lyrics. */
  noLyrics?: boolean | null;
}

/** Options of `tidy`. */
export interface TidyOptions {
  /** On the other foot: left for right, and the clock with it. */
  mirror?: boolean | null;
}

/** A figure, shown as led by the right foot; led by the left it is its own mirror image. */
export interface Figure {
  /** Its name. */
  name: string;
  /** Other names. */
  also: string[];
  /** With which foot it is met. */
  lead: "either foot" | "mostly the right foot" | "mostly the left foot" | "both feet";
  /** The level at which it is usually taught. */
  level: string;
  /** Counts that it takes. */
  counts: number;
  /** The counts on which something is done: `1&2 3 4`. */
  rhythm: string;
  /** Where the weight is before it. */
  weight_start: Weight;
  /** What is done, one after the other. */
  steps: FigureStep[];
  weight_end: Weight;
  /** Its net turn: `1/4 R`; empty where there is none. */
  turn: string;
  /** What a teacher calls. */
  calls: string;
  /** Where the facts come from. */
  source: string;
}

/** One step of a figure. */
export interface FigureStep {
  /** Its count: `1`, `1&`; a mere `&` stands before count 1. */
  count: string;
  /** What is done. */
  step: string;
  /** Weight after it. */
  weight: Weight;
  /** Whether a turn that a writer adds falls here. */
  turn_falls_here: boolean;
}

/** What cannot be danced as written, and how to mend it. */
export function check(text: string, options?: CheckOptions | null): CheckReport;

/** Which foot takes the weight on each count. */
export function trace(text: string, options?: TraceOptions | null): TraceReport;

/** Both feet at every half-count of one repetition, or on another grid. */
export function frames(text: string, options?: FrameOptions | null): FrameReport;

/** The same as one array of numbers. */
export function frameNumbers(text: string, options?: FrameOptions | null): FrameNumbers;

/** How hard the dance is, and of what the number is made. */
export function score(text: string, options?: ScoreOptions | null): ScoreReport;

/** Footprints of all sections as one SVG, or what the options ask for instead. */
export function draw(text: string, options?: DrawOptions | null): string;

/** A drawing for each section, its tags and its ending, with the same content in sentences. */
export function drawSections(text: string, options?: DrawSectionsOptions | null): DrawnSection[];

/** The bytes of a click track (Standard MIDI File). */
export function call(text: string, options: CallOptions & { format: "midi"; plan?: false | null }): Uint8Array;
/** What the teacher says and when, captions (WebVTT), or a lesson plan. */
export function call(text: string, options?: (CallOptions & { format?: "text" | "webvtt" | null }) | null): string;

/** The sheet written in one clean manner, reading to the same steps. */
export function tidy(text: string, options?: TidyOptions | null): string;

/** All figures that are known. */
export function figures(): Figure[];
/** The figure of a name. */
export function figures(name: string): Figure;

/** Options of `steps`. */
export interface StepsOptions {
  /** Name of the sheet, given back as it is. Without one it is `-`. */
  file?: string | null;
  /** Repetitions, 1 to 64; one leaves tags and restarts out, more follow the song with them. */
  walls?: number | null;
  /** The dancer that is meant; a person of 1.70 m without it. */
  body?: BodyOptions | null;
}

/** A figure that a section names, or that its steps make. */
export interface StepsFigure {
  /** Its name in the lexicon. */
  name: string;
  /** The foot that leads it. */
  lead: "left" | "right" | null;
  /** Its turn as danced: `1/4 R`, or empty. */
  turn: string;
  /** What a teacher calls. */
  calls: string;
  /** The level at which it is usually taught. */
  level: string;
  /** Whether the writer named it; otherwise it was recognised in the steps. */
  named: boolean;
  /** First UTF-16 unit of the words that name it. */
  start: number;
  /** One past the last. */
  end: number;
}

/** A section as danced at its place in the song. */
export interface StepsStretch {
  /** The repetition, from 1. */
  wall: number;
  /** Name of the part: `main`, `A`, `tag 1`. */
  part: string;
  /** What the part is for. */
  kind: "main" | "tag" | "ending";
  /** Section of the part, from 1. */
  section: number;
  /** Its heading as written, without the numbering. */
  name: string;
  /** Counts of the song before it. */
  before: number;
  /** Counts that are left out at its beginning. */
  skipped: number;
  /** Counts danced. */
  counts: number;
  /** Clock when it begins. */
  facing: string;
  /** Clock when it ends. */
  facing_end: string;
  /** Whether a restart changes its steps. */
  changed: boolean;
  /** First UTF-16 unit of its text. */
  start: number;
  /** One past the last. */
  end: number;
  /** Its figures in order. */
  figures: StepsFigure[];
}

/** One move of the dance. */
export interface StepsMove {
  /** When its pose is reached: 24 ticks to the count, count 1 is tick 24. */
  tick: number;
  /** When the movement toward it begins. */
  begins: number;
  /** Index into `stretches`. */
  stretch: number;
  /** Count within the section: `3&`. */
  count: string;
  /** The foot, `B` for both at once, empty where no foot moves. */
  who: "L" | "R" | "B" | "";
  /** What it does, in the words of the figures' language: `step`, `touch`. */
  action: string;
  /** Where to: `fwd`, `cross`. */
  place: string;
  /** How far, where it is not the usual. */
  reach: "small" | "long" | "";
  /** The turn: `1/4 R`, or empty. */
  turn: string;
  /** The same in degrees, clockwise positive. */
  turn_degrees: number;
  /** Clock after it. */
  facing: string;
  /** What happens to the weight: taken, free, shared, kept, nothing. */
  effect: "+" | "." | "=" | "*" | "-";
  /** Weight before it. */
  before: "L" | "R" | "B";
  /** Weight after it. */
  after: "L" | "R" | "B";
  /** Whether it breaks a rule of weight. */
  broken: boolean;
  /** Index into the stretch's `figures`. */
  figure: number | null;
  /** First UTF-16 unit of the words that made it. */
  start: number;
  /** One past the last. */
  end: number;
  /** What is done, with letters for the feet: `step R forward`. */
  words: string;
  /** In whole words: `step the right foot forward`. */
  said: string;
  /** Where the weight is then: `weight on the right foot`; empty where that is no matter. */
  weight: string;
  /** The whole sentence: its count, what is done, and where the weight is then. */
  sentence: string;
}

/** A stretch of the song: a repetition, some of it, or a tag. */
export interface StepsRun {
  /** The repetition, from 1. */
  wall: number;
  /** Name of the part. */
  part: string;
  /** What the part is for. */
  kind: "main" | "tag" | "ending";
  /** First count danced, from 0. */
  from: number;
  /** One past the last count danced. */
  to: number;
  /** Counts danced. */
  counts: number;
  /** Whether the dance begins again after it. */
  restart: boolean;
  /** Clock when it begins. */
  facing: string;
  /** Clock when it ends. */
  facing_end: string;
}

/** The moves in the order of the song, each with its place in the text. Ticks are those of `frames`. */
export interface StepsReport {
  /** The name that was given, or `-`. */
  file: string;
  /** Title as written. */
  title: string;
  /** Who made the dance, as written. */
  author: string;
  /** The music, as written. */
  music: string;
  /** Level in lower case. */
  level: string;
  /** Counts of one repetition. */
  counts: number;
  /** Walls. */
  walls: number;
  /** Beats in a bar. */
  beats_per_bar: number;
  /** Beats a minute, where the sheet says. */
  tempo: number | null;
  /** Counts of music before the first step, where the sheet says. */
  intro: number | null;
  /** The foot that acts first. */
  start_foot: "L" | "R" | null;
  /** Length of a foot in metres. */
  foot_length: number;
  /** Breadth of a foot in metres. */
  foot_breadth: number;
  /** Share of the foot's length from the heel to the ball. */
  ball_share: number;
  /** Counts danced in all repetitions asked for. */
  total: number;
  /** Sections in the order in which they are danced. */
  stretches: StepsStretch[];
  /** Moves in order of time. */
  steps: StepsMove[];
  /** The song as far as its tags and restarts reach. */
  runs: StepsRun[];
  /** What the teacher calls, in order of time. */
  calls: StepsCall[];
}

/** A call of the teacher, in ticks of the song as `steps` has them: count 1 is tick 24. */
export interface StepsCall {
  /** When it begins. */
  starts: number;
  /** The moment that it is about. */
  lands: number;
  /** What is said. */
  words: string;
  /** What it tells of: what comes, a figure, a step, or the count. */
  kind: "warning" | "figure" | "step" | "count";
}

/** The moves in the order of the song, with the sections and figures they belong to. */
export function steps(text: string, options?: StepsOptions | null): StepsReport;
