// What is read below the floor, and what is taken away.
import "./account.js";
import "./lesson.js";
import "./song.js";
import "./take-away.js";
import "./print.js";
