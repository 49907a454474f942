// Judges the trees that `peers export` wrote with one of the general-purpose rule libraries:
//
//     node judge.mjs check LIBRARY FILE     every answer must be the program's
//     node judge.mjs speed LIBRARY FILE     trees per second, the median of several rounds
import { readFileSync } from "node:fs";

const rounds = 9;
const leastRound = 200;  // milliseconds

// Each library as one function from a tree to a promise of its answer, or to the answer.
const libraries = {
  "json-logic-js": async ({ logic }) => {
    const { default: jsonLogic } = await import("json-logic-js");
    return (tree) => jsonLogic.apply(logic, tree);
  },

  // All rules are tried at once and the first that holds counts: much faster there than giving the
  // rules priorities, by which the library waits for each before it tries the next.
  "json-rules-engine": async ({ rules }) => {
    const { Engine } = await import("json-rules-engine");
    const engine = new Engine();
    rules.forEach((rule, order) =>
      engine.addRule({ ...rule, event: { ...rule.event, params: { order } } }));
    return async (tree) => {
      const { events } = await engine.run(tree);
      return events.reduce((a, b) => (a.params.order < b.params.order ? a : b)).type;
    };
  },
};

async function check(judge, { trees, answers }) {
  for (const [place, tree] of trees.entries()) {
    const answer = await judge(tree);
    if (answer !== answers[place]) {
      throw new Error(`${JSON.stringify(tree)}: '${answer}', but '${answers[place]}' by the program`);
    }
  }
  const found = [...new Set(answers)].sort();
  console.log(`${trees.length} trees, every answer the same: ${found.join(", ")}`);
}

async function speed(judge, { trees }) {
  const speeds = [];
  for (let round = 0; round < rounds; ++round) {
    const start = performance.now();
    let judged = 0;
    while (performance.now() - start < leastRound) {
      for (const tree of trees) {
        const answer = judge(tree);
        if (answer instanceof Promise) await answer;
      }
      judged += trees.length;
    }
    speeds.push((judged / (performance.now() - start)) * 1000);
  }
  console.log(speeds.sort((a, b) => a - b)[(rounds - 1) / 2]);
}

const [task, library, file] = process.argv.slice(2);
const exported = JSON.parse(readFileSync(file, "utf8"));
const judge = await libraries[library](exported);
await { check, speed }[task](judge, exported);
