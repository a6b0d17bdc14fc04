// A general-purpose replication stack beside our push: PouchDB replicating to express-pouchdb on loopback.
// Reads one batch of documents (a JSON array) a line; answers the milliseconds of its replication a line.
import { createInterface } from "node:readline";
import { createRequire } from "node:module";
import { mkdirSync } from "node:fs";

const [home, port] = process.argv.slice(2);
const require = createRequire(`${home}/package.json`);
const PouchDB = require("pouchdb");
const express = require("express");

mkdirSync(`${home}/server`, { recursive: true });
const ServerDB = PouchDB.defaults({ prefix: `${home}/server/` });
const app = express();
app.use("/", require("express-pouchdb")(ServerDB, { mode: "minimumForPouchDB", inMemoryConfig: true, logPath: `${home}/log.txt` }));
await new Promise((listening) => app.listen(Number(port), "127.0.0.1", listening));

let batch = 0;
console.log("ready");
for await (const line of createInterface({ input: process.stdin })) {
  // what the phone had written before is not the server's work: only the sending is timed
  const local = new PouchDB(`${home}/phone-${batch}`);
  batch += 1;
  await local.bulkDocs(JSON.parse(line).map((event) => ({ _id: event.id, ...event })));
  const began = performance.now();
  const told = await local.replicate.to(`http://127.0.0.1:${port}/club`, { batch_size: 500 });
  const took = performance.now() - began;
  if (told.docs_written !== JSON.parse(line).length) throw new Error("not all was written");
  await local.close();
  console.log(took);
}
process.exit(0);
