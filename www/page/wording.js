// A step in plain words, for the list, for screen readers and for the voice.

const FOOT = { L: "left foot", R: "right foot", B: "both feet", "": "" };
// What one foot does, and the same for both feet or for none.
const DOES = {
  step: ["steps", "step"], rock: ["rocks", "rock"], recover: ["recovers", "recover"], ball: ["steps on the ball", "on the balls"],
  press: ["presses", "press"], lunge: ["lunges", "lunge"], sway: ["sways", "sway"], stomp: ["stomps", "stomp"],
  drop: ["comes down flat", "come down flat"], grind: ["grinds on the heel", "grind on the heels"], skate: ["skates", "skate"],
  slide: ["slides", "slide"], shift: ["takes the weight", "shift the weight"], pivot: ["pivots", "pivot"],
  paddle: ["takes the paddle", "paddle"], touch: ["touches", "touch"], toe: ["sets the toe", "set the toes"],
  point: ["points", "point"], heel: ["sets the heel", "set the heels"], kick: ["kicks", "kick"], flick: ["flicks", "flick"],
  hook: ["hooks", "hook"], hitch: ["hitches", "hitch"], brush: ["brushes", "brush"], scuff: ["scuffs", "scuff"],
  drag: ["drags", "drag"], sweep: ["sweeps", "sweep"], fan: ["fans", "fan"], kneepop: ["pops the knee", "pop the knees"],
  bounce: ["bounces the heel", "bounce the heels"], bump: ["bumps the hip", "bump the hips"], roll: ["rolls the hips", "roll the hips"],
  jump: ["jumps", "jump"], swivel: ["swivels", "swivel"], split: ["splits", "split"], apple: ["applejack", "applejack"],
  swivet: ["swivet", "swivet"], hop: ["hops", "hop"], scoot: ["scoots", "scoot"], spin: ["spins", "spin"],
  spiral: ["spirals", "spiral"], turn: ["turns", "turn"], unwind: ["unwinds", "unwind"], body: ["body", "body"],
  hips: ["hips", "hips"], clap: ["clap", "clap"], hold: ["holds", "hold"],
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

const REACH = { small: "a small way", long: "a long way" };
const TURNS = ["pivot", "turn", "unwind", "spin", "spiral", "paddle"];

/** `right foot steps to the side, turning 1/4 right`. */
export function stepWords(step) {
  const one = step.who === "L" || step.who === "R";
  const verb = DOES[step.action]?.[one ? 0 : 1] ?? step.action;
  const far = REACH[step.reach];
  const turn = step.turn ? turnWords(step.turn) : "";
  const turns = TURNS.includes(step.action);
  if (turns && step.effect === "+" && step.action !== "spiral") return [DOES[step.action][1], turn, `onto the ${FOOT[step.who]}`].filter(Boolean).join(" ");
  if (step.action === "recover" || step.action === "shift") return `${step.action === "shift" ? "shift the weight" : "recover"} onto the ${FOOT[step.who]}${turn ? `, turning ${turn}` : ""}`;
  const words = [FOOT[step.who], verb, turns ? turn : far, turns ? "" : TO[step.place] ?? step.place].filter(Boolean).join(" ");
  return words + (turn && !turns ? `, turning ${turn}` : "");
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
