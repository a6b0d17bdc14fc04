/** Where a page of the guide lies: the server and the offline cache go by the language named here. */
import { locale } from "./i18n";

/** The app's language as the server names it. */
export const spoken = (): string => locale.slice(0, 2);

export const guidePage = (name: string): string => `/guide/${name}?lang=${spoken()}`;
