/** Which engine runs this page, where engines differ in what they keep. */

/** WebKit's own engine number, the same on every phone and desk; Chromium gives another. */
const WEBKIT = /AppleWebKit\/(60[5-9]|6[1-9]\d)\./;

export const isWebKit = (): boolean => WEBKIT.test(globalThis.navigator?.userAgent ?? "");
