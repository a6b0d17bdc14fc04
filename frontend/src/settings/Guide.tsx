/** Links to the guide, which is server-rendered and cached offline. */
import { guidePage } from "../language/guide";
import { _ } from "../language/i18n";

const PAGES = {
  "first-lesson": _("The first lesson in three minutes"),
  figures: _("What the figures mean"),
  "settings-and-bouts": _("Other settings, bouts and stakes"),
  care: _("Care and consent"),
  "who-gets-in": _("Who might want in, and when a phone is lost"),
  "default-rule": _("Which rule to start with"),
  "going-live": _("Going live: the club's own server"),
};

export const Guide = () => (
  <section class="card" data-testid="guide">
    <h2>{_("Guide")}</h2>
    <p class="soft">{_("Opens without a network, too.")}</p>
    <ul>
      {Object.entries(PAGES).map(([name, title]) => (
        <li key={name}>
          <a class="quiet" href={guidePage(name)}>
            {title}
          </a>
        </li>
      ))}
    </ul>
  </section>
);
