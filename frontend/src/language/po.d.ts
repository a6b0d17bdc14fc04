/** Catalogues, compiled to modules by the build. */
declare module "*.po" {
  const texts: import("./i18n").Catalogue;
  export default texts;
}
