/** Download a file from the server. */
import { NoAnswer, Problem, problemOf } from "./api";

/** @returns the content, and the file name the server gives it */
export async function download(path: string): Promise<{ name: string | null; content: Blob }> {
  try {
    const reply = await fetch(path, { credentials: "same-origin", cache: "no-store" });
    if (!reply.ok) throw problemOf(reply, await reply.text());
    const [, name = null] =
      /filename="([^"]+)"/.exec(reply.headers.get("Content-Disposition") ?? "") ?? [];
    return { name, content: await reply.blob() };
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new NoAnswer(error instanceof Error ? error.message : String(error));
  }
}
