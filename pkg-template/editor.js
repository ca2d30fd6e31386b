// Findings for CodeMirror 6: give the result of `lintSource` to its `linter`. Nothing of CodeMirror is imported.

const SEVERITY = { error: "error", warning: "warning", note: "info" };

/** One finding as an editor shows it, kept inside a document of `length`. */
function diagnostic(finding, length) {
  const inside = (place) => Math.max(0, Math.min(place, length));
  const change = ({ start, end, text }) => ({ from: inside(start), to: inside(end), insert: text });
  return {
    from: inside(finding.start),
    to: Math.max(inside(finding.start), inside(finding.end)),
    severity: SEVERITY[finding.severity],
    source: finding.rule,
    message: finding.message,
    actions: finding.fixes.map((fix) => ({
      name: fix.sureness === "sure" ? fix.title : `${fix.title}?`,
      apply: (view) => view.dispatch({ changes: fix.edits.map(change), userEvent: "input.mend" }),
    })),
  };
}

/** Findings of a report about a text of this many UTF-16 units. */
export function diagnostics(report, length) {
  return report.findings.map((finding) => diagnostic(finding, length));
}

/** Whether a place touches the line in which somebody types. */
function isBeingTyped(view, { from, to }) {
  if (!view.hasFocus) return false;
  const { doc, selection } = view.state;
  const line = doc.lineAt(selection.main.head);
  return from <= line.to && to >= line.from;
}

/** A source for `linter`, from `check` of this package or of a worker. */
export function lintSource(check, { options, whileTyping = false } = {}) {
  return async (view) => {
    const { doc } = view.state;
    let report;
    try {
      report = await check(doc.toString(), options);
    } catch (error) {
      // A newer text is under way, and its findings will come.
      if (error?.code === "dropped") return [];
      throw error;
    }
    // The document may have gone on while a worker was reading; it will be read again.
    if (view.state.doc !== doc) return [];
    const all = diagnostics(report, doc.length);
    return whileTyping ? all : all.filter((one) => !isBeingTyped(view, one));
  };
}

/** For `linter`'s `needsRefresh`: the caret left a line, or the editor lost or got the focus. */
export function caretMoved(update) {
  const line = (state) => state.doc.lineAt(state.selection.main.head).number;
  return update.focusChanged || line(update.startState) !== line(update.state);
}
