/**
 * Entry point. Starts opening the stores, then loads the language, then the app: its texts are
 * translated as its modules are evaluated.
 */
import "./app/stores";
import { loadLanguage } from "./language/language";
// cascade order: shared parts, then the first screens; lazy screens import their own sheets
import "./ui/colours.css";
import "./ui/base.css";
import "./ui/page.css";
import "./ui/form.css";
import "./ui/figures.css";
import "./ui/sheet.css";
import "./App.css";
import "./lesson/lesson.css";
import "./lesson/pad.css";
import "./lesson/give.css";
import "./today/today.css";
import "./strip/strip.css";
import "./strip/wait.css";

void loadLanguage().then(() => import("./start"));
