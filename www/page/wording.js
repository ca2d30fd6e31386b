// A step in plain words, for the list, for screen readers and for the voice.

const FOOT = { L: "left foot", R: "right foot", B: "both feet", "": "" };
const DOES = {
  step: "step", rock: "rock", recover: "recover", ball: "ball step", press: "press", lunge: "lunge", sway: "sway",
  stomp: "stomp", drop: "heel or toe down", grind: "heel grind", skate: "skate", slide: "slide", shift: "shift the weight",
  pivot: "pivot", paddle: "paddle", touch: "touch", toe: "toe", point: "point", heel: "heel", kick: "kick",
  flick: "flick", hook: "hook", hitch: "hitch", brush: "brush", scuff: "scuff", drag: "drag", sweep: "sweep",
  fan: "fan", kneepop: "knee pop", bounce: "bounce", bump: "bump the hips", roll: "roll the hips", jump: "jump",
  swivel: "swivel", split: "split", apple: "applejack", swivet: "swivet", hop: "hop", scoot: "scoot", spin: "spin",
  spiral: "spiral", turn: "turn", unwind: "unwind", body: "body", hips: "hips", clap: "clap", hold: "hold",
};
const TO = {
  fwd: "forward", back: "back", side: "to the side", diagF: "diagonally forward", diagB: "diagonally back",
  diagFx: "diagonally across", cross: "across in front", behind: "behind", lockB: "locked behind", lockF: "locked in front",
  third: "to the instep", close: "beside the other foot", place: "in place", home: "back home", out: "out", in: "in",
  R: "to the right", L: "to the left", circle: "in a circle", up: "up", down: "down", still: "", hands: "",
  "heels-out": "heels out", "heels-in": "heels in", "heels-R": "heels right", "heels-L": "heels left",
  "heels-C": "heels to the middle", "toes-out": "toes out", "toes-in": "toes in", "toes-R": "toes right",
  "toes-L": "toes left", "toes-C": "toes to the middle",
};
const WEIGHT = { L: "left", R: "right", B: "both feet" };

export const turnWords = (turn) => turn.replace(/ R$/, " right").replace(/ L$/, " left");

/** `right foot: step to the side, turning 1/4 right`. */
export function stepWords(step) {
  const does = [step.reach, DOES[step.action] ?? step.action, TO[step.place] ?? step.place].filter(Boolean).join(" ");
  const onto = ["recover", "shift", "pivot"].includes(step.action);
  const words = onto ? DOES[step.action] + (step.effect === "+" ? ` onto the ${FOOT[step.who]}` : "") : does;
  const foot = FOOT[step.who] && !onto ? `${FOOT[step.who]} ${words}` : words;
  const turn = step.turn ? (step.action === "turn" ? ` ${turnWords(step.turn)}` : `, turning ${turnWords(step.turn)}`) : "";
  return foot + turn;
}

export function weightWords(step) {
  if (step.after === "B") return "weight on both feet";
  const stays = step.before === step.after && step.effect !== "+";
  return stays ? `weight stays ${WEIGHT[step.after]}` : `weight on the ${WEIGHT[step.after]}`;
}

export const countWords = (count) => count.replace("&", " and").replace(/e$/, " e").replace(/a$/, " a").replace(/^0 and$/, "and");

export function stepSentence(step) {
  return `Count ${countWords(step.count)}: ${stepWords(step)}; ${weightWords(step)}.`;
}

/** A figure's name with its foot and turn: `coaster step, left foot`. */
export function figureWords(figure) {
  return [figure.name, figure.lead && `${figure.lead} foot`, figure.turn && turnWords(figure.turn)].filter(Boolean).join(", ");
}

export const many = (n, one, more = `${one}s`) => `${n} ${n === 1 ? one : more}`;
