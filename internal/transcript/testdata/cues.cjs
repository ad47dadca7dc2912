// Prints the cues that the W3C's webvtt-parser finds in the files named on the
// command line: a JSON list, one entry a file, of [start, end, segments], where
// a segment is [moment or null, text]. Ruby text is left out, as it repeats
// what the base says. Run with NODE_PATH naming the folder it is installed in.
const fs = require("fs");
const { WebVTTParser } = require("webvtt-parser");
const entities = require("webvtt-parser/html-entities.json");

function segments(node, out) {
  for (const child of node.children) {
    if (child.type === "text") out[out.length - 1][1] += child.value;
    else if (child.type === "timestamp") out.push([child.value, ""]);
    else if (child.name !== "rt") segments(child, out);
  }
  return out;
}

const files = process.argv.slice(2).map((path) =>
  new WebVTTParser(entities)
    .parse(fs.readFileSync(path, "utf8"), "captions")
    .cues.map((cue) => [cue.startTime, cue.endTime, segments(cue.tree, [[null, ""]])])
);
console.log(JSON.stringify(files));
