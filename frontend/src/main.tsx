/**
 * The door: the stores begin to open; then the language, since every text is made when the app is
 * read; then the app.
 */
import "./stores";
import { learn } from "./language";
import "./style/base.css";
import "./style/desk.css";
import "./style/inputs.css";
import "./style/people.css";
import "./style/evenings.css";
import "./style/sheet.css";
import "./style/strip.css";
import "./style/wide.css";

void learn().then(() => import("./start"));
