// A strict program that names every exported type; it is compiled and never run.
import init, { HalfcountError, call, check, draw, drawSections, figures, frameNumbers, frames, init as same, initSync, score, steps, tidy, trace } from "halfcount";
import type {
  BodyOptions, CallOptions, CheckOptions, CheckReport, DrawOptions, DrawSectionsOptions, DrawnSection, DrawnStep, Edit, Figure, FigureStep, Finding, Fix,
  Foot, Frame, FrameColumns, FrameNumbers, FrameOptions, FrameReport, HalfcountErrorCode, Level, Related, ScoreMeasure, ScoreOptions, ScorePart,
  ScoreReport, ScoreStretch, ScoreWords, Severity, Sole, Source, StepsCall, StepsFigure, StepsMove, StepsOptions, StepsReport, StepsRun, StepsStretch, Sureness,
  TidyOptions, TraceFinding, TraceFloor, TraceOptions, TraceReport, TraceRestart, TraceSection, TraceTag, Unread, View, Weight,
} from "halfcount";
import { caretMoved, diagnostics, lintSource } from "halfcount/editor";
import type { EditorAction, EditorDiagnostic, EditorLike, EditorTarget, EditorText, LintOptions } from "halfcount/editor";
import { defineFloor } from "halfcount/element";
import type { FloorSource, HalfcountFloor } from "halfcount/element";
import { openWorker } from "halfcount/worker";
import type { WorkerDesk, WorkerLike, WorkerOptions } from "halfcount/worker";

const source: Source = Promise.resolve("halfcount.wasm");
await init(source);
await same();
initSync(new Uint8Array());

const body: BodyOptions = { stature: 1.55, footLength: 0.23, hipBreadth: 0.34 };
const options: CheckOptions = { file: "quayside-two.txt", allow: ["wrong-length"], body };
const report: CheckReport = check("", options);
const unread: Unread | undefined = report.unread[0];
const finding: Finding | undefined = report.findings[0];
if (finding) {
  const severity: Severity = finding.severity;
  const related: Related[] = finding.related;
  const fix: Fix | undefined = finding.fixes[0];
  const sureness: Sureness | undefined = fix?.sureness;
  const edit: Edit | undefined = fix?.edits[0];
  const words: string = "".slice(finding.start, finding.end) + (finding.count ?? "") + severity;
  void [related, sureness, edit, words, unread];
}

const traceOptions: TraceOptions = { file: null };
const traced: TraceReport = trace("", traceOptions);
const foot: Foot | null = traced.start_foot;
const section: TraceSection | undefined = traced.sections[0];
const weight: Weight | undefined = section?.weight_end;
const tag: TraceTag | undefined = traced.tags[0];
const restart: TraceRestart | undefined = traced.restarts[0];
const inBytes: TraceFinding | undefined = traced.findings[0];
const needed: TraceFloor = traced.floor;
void [foot, weight, tag, restart, inBytes, needed];

const frameOptions: FrameOptions = { perCount: 8, walls: 4 };
const rows: FrameReport = frames("", frameOptions);
const frame: Frame | undefined = rows.frames[0];
const sole: Sole | undefined = frame?.left_sole;
const flat: FrameNumbers = frameNumbers("", frameOptions);
const columns: FrameColumns = flat.columns;
const first: number | undefined = flat.numbers[columns.indexOf("right_x")];
void [sole, first];

const scoreOptions: ScoreOptions = { bpm: 104 };
const scored: ScoreReport = score("", scoreOptions);
const level: Level | null = scored.level;
const measure: ScoreMeasure | undefined = scored.measures[0];
const part: ScorePart | undefined = scored.parts[0];
const hardest: ScoreStretch | null = scored.hardest;
const hard: ScoreWords | undefined = hardest?.words[0];
void [level, measure, part, hard];

const view: View = "teacher";
const drawOptions: DrawOptions = { view, count: "12&" };
const sectionsOptions: DrawSectionsOptions = { strip: true };
const svg: string = draw("", drawOptions);
const drawn: DrawnSection | undefined = drawSections("", sectionsOptions)[0];
const sentence: DrawnStep | undefined = drawn?.sentences[0];
void [svg, sentence];

const stepsOptions: StepsOptions = { walls: 4 };
const danced: StepsReport = steps("", stepsOptions);
const stretch: StepsStretch | undefined = danced.stretches[0];
const named: StepsFigure | undefined = stretch?.figures[0];
const move: StepsMove | undefined = danced.steps[0];
const run: StepsRun | undefined = danced.runs[0];
const said: StepsCall | undefined = danced.calls[0];
void [named, move, run, said];

const callOptions: CallOptions = { bpm: "104,112@129", length: "3:30" };
const bytes: Uint8Array = call("", { format: "midi" });
const captions: string = call("", { format: "webvtt", offset: -2.5 });
void [callOptions, bytes, captions];

const tidyOptions: TidyOptions = { mirror: true };
const text: string = tidy("", tidyOptions);
const every: Figure[] = figures();
const one: Figure = figures("jazz box");
const step: FigureStep | undefined = one.steps[0];
void [text, every, step];

try {
  check("");
} catch (error) {
  if (error instanceof HalfcountError) {
    const code: HalfcountErrorCode = error.code;
    void code;
  }
}

const workerOptions: WorkerOptions = { newest: true };
const desk: WorkerDesk = await openWorker(workerOptions);
const later: CheckReport = await desk.check("");
const track: Uint8Array = await desk.call("", { format: "midi" });
desk.close();
const thread: WorkerLike | undefined = workerOptions.worker;
void [later, track, thread];

const lintOptions: LintOptions = { whileTyping: true };
const lint: (view: EditorLike) => Promise<EditorDiagnostic[]> = lintSource(check, lintOptions);
lintSource(desk.check);
const shown: EditorDiagnostic[] = diagnostics(report, 0);
const action: EditorAction | undefined = shown[0]?.actions[0];
declare const target: EditorTarget;
declare const state: EditorText;
action?.apply(target);
const moved: boolean = caretMoved({ focusChanged: false, startState: state, state });
void [lint, moved];

const floorSource: FloorSource = { frameNumbers };
defineFloor(floorSource);
defineFloor(desk, "our-floor");
declare const floor: HalfcountFloor;
floor.step(-1);
