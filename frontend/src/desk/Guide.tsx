/** What there is to read; the pages are the server's own and kept to open offline. */
import { clubWords } from "../words.club";

const { guide } = clubWords;

export const Guide = () => (
  <section class="card" data-testid="guide">
    <h2>{guide.title}</h2>
    <p class="soft">{guide.lead}</p>
    <ul>
      {Object.entries(guide.pages).map(([name, title]) => (
        <li key={name}>
          <a class="quiet" href={`/guide/${name}`}>
            {title}
          </a>
        </li>
      ))}
    </ul>
  </section>
);
