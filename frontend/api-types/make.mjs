// Reads the API's OpenAPI document from standard input and writes TypeScript types of its replies.
import openapiTS, { astToString } from "openapi-typescript";
import ts from "typescript";

// What the phone itself works on has its type beside the code that works on it.
const OWN = {
  Chart: "Chart",
  Standing: "Standing",
  Suggestion: "Suggestion",
  Walk: "Walk",
  Event: "LessonEvent",
};
const HEAD = `/** What the server replies, by schema. Generated from the API by \`make api-types\`: do not edit. */
import type { Chart, Standing, Suggestion, Walk } from "../rules/chart";
import type { LessonEvent } from "../rules/events";
`;
const PLACE = "#/components/schemas/";

/** The names of all schemas that a part of the document refers to, directly or not. */
function reached(part, schemas, found = new Set()) {
  if (part === null || typeof part !== "object") return found;
  for (const [key, value] of Object.entries(part)) {
    if (key !== "$ref") reached(value, schemas, found);
    else if (value.startsWith(PLACE)) {
      const name = value.slice(PLACE.length);
      if (!found.has(name)) reached(schemas[name], schemas, found.add(name));
    }
  }
  return found;
}

let text = "";
for await (const piece of process.stdin) text += piece;
const { paths, components } = JSON.parse(text);
const told = Object.values(paths)
  .flatMap((path) => Object.values(path))
  .map((operation) => operation.responses);
const schemas = {};
for (const name of [...reached(told, components.schemas)].sort())
  schemas[name] = components.schemas[name];
const ast = await openapiTS(
  { openapi: "3.1.0", info: { title: "", version: "" }, components: { schemas } },
  {
    transform(_, { path }) {
      const own = path?.startsWith(PLACE) ? OWN[path.slice(PLACE.length)] : undefined;
      return own && ts.factory.createTypeReferenceNode(own);
    },
  },
);
// one interface of all schemas instead of the wrapping that openapi-typescript puts around them
const all = ast.find((node) => node.name?.text === "components").members[0].type.members;
const replies = ts.factory.createInterfaceDeclaration(
  undefined,
  "Replies",
  undefined,
  undefined,
  all,
);
const types = astToString([replies]).replaceAll('components["schemas"]', "Replies");
process.stdout.write(`${HEAD}\nexport ${types}`);
