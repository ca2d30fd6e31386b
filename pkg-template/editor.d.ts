import type { CheckOptions, CheckReport } from "./index.js";

/** What an editor shows for a finding: the shape of CodeMirror's `Diagnostic`. */
export interface EditorDiagnostic {
  /** First UTF-16 unit, inside the document. */
  from: number;
  /** One past the last unit, inside the document. */
  to: number;
  /** `info` for a note. */
  severity: "info" | "warning" | "error";
  /** The rule's name. */
  source: string;
  /** A sentence for a dance teacher. */
  message: string;
  /** One for each mend; the name of one that only the author can choose ends with a question mark. */
  actions: EditorAction[];
}

/** A mend as a button. */
export interface EditorAction {
  /** What it does. */
  name: string;
  /** Makes the mend in an editor. */
  apply(view: EditorTarget): void;
}

/** The part of CodeMirror's `EditorView` that a mend needs. */
export interface EditorTarget {
  dispatch(change: { changes: { from: number; to: number; insert: string }[]; userEvent: string }): void;
}

/** The part of CodeMirror's `EditorState` that is used. */
export interface EditorText {
  readonly doc: {
    readonly length: number;
    toString(): string;
    lineAt(place: number): { readonly number: number; readonly from: number; readonly to: number };
  };
  readonly selection: { readonly main: { readonly head: number } };
}

/** The part of CodeMirror's `EditorView` that is used. */
export interface EditorLike {
  readonly hasFocus: boolean;
  readonly state: EditorText;
}

/** How to show findings. */
export interface LintOptions {
  /** Options for each call of `check`. */
  options?: CheckOptions;
  /** Whether to mark the line with the caret as well. It is left alone otherwise until the caret leaves it. */
  whileTyping?: boolean;
}

/**
 * A source of findings for CodeMirror's `linter`.
 *
 * ```js
 * linter(lintSource(check), { delay: 600, needsRefresh: caretMoved })
 * ```
 */
export function lintSource(
  check: (text: string, options?: CheckOptions) => CheckReport | Promise<CheckReport>,
  how?: LintOptions,
): (view: EditorLike) => Promise<EditorDiagnostic[]>;

/** The findings of a report about a text of so many UTF-16 units. */
export function diagnostics(report: CheckReport, length: number): EditorDiagnostic[];

/** For `linter`'s `needsRefresh`: true where the caret has left a line, or the focus has moved. */
export function caretMoved(update: {
  readonly focusChanged: boolean;
  readonly startState: EditorText;
  readonly state: EditorText;
}): boolean;
