// Writes hydraulics_networks.txt: random trees and looped networks solved by the EPANET engine (version 2.3.5, in the
// MIT-licensed npm package epanet-js 0.9.0). The tests read the text file alone; run this only to make it anew:
//   npm install epanet-js@0.9.0 && node hydraulics_networks.mjs > hydraulics_networks.txt
import { Project, Workspace } from "epanet-js";

// A small generator of our own, so that the same networks come out everywhere.
let state = 20250611;
function random() {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 4294967296;
}
const between = (low, high) => low + (high - low) * random();
const whole = (low, high) => Math.floor(between(low, high + 1));
const short = (x) => Number(x.toPrecision(6));

const insides = [4.3, 6.4, 13.2, 15.2, 17.8, 20.8, 26.6]; // mm
const narrow = [1.2, 2, 3, 4.3]; // mm, laminar at garden flows

function makeNetwork(index) {
  const looped = index % 2 === 1;
  const kind = ["withdrawals", "outlets", "laminar"][index % 3];
  const count = whole(4, index < 30 ? 40 : 120);
  const nodes = [{ id: "S", held: short(between(15, 40)) }];
  const pipes = [];
  const addPipe = (from, to) => {
    // Wide near the source and narrow far out, so that nothing runs dry.
    const wide = Math.max(0, Math.min(6, 6 - Math.floor(to / 12) + whole(-1, 0)));
    pipes.push({
      id: `P${pipes.length + 1}`, from: nodes[from].id, to: nodes[to].id, length: short(between(0.3, 12)),
      inside: kind === "laminar" ? narrow[whole(0, 3)] : insides[wide], k: kind === "laminar" ? 0 : short(between(0, 3) * whole(0, 1)),
    });
  };
  for (let i = 1; i <= count; ++i) {
    nodes.push({ id: `N${i}`, elevation: short(between(-2, 2)), withdrawal: 0, coefficient: 0 });
    addPipe(Math.max(0, i - whole(1, 5)), i);
  }
  for (let extra = looped ? whole(1, Math.ceil(count / 4)) : 0; extra > 0; --extra) {
    const a = whole(0, count), b = whole(1, count);
    if (a !== b) addPipe(Math.min(a, b), Math.max(a, b));
  }
  const exponent = kind === "outlets" ? [0.5, 0.57, 0.42, 1.0][whole(0, 3)] : 0.5;
  for (const node of nodes.slice(1)) {
    if (random() < 0.4) continue;
    if (kind === "outlets") node.coefficient = short(between(0.1, 0.5) / count / 20 ** exponent);
    else node.withdrawal = short(kind === "laminar" ? between(0.001, 0.004) / count : between(0.05, 0.3) / count);
  }
  return {
    name: `${index + 1} ${looped ? "loops" : "tree"} ${kind}`, nodes, pipes,
    formula: kind === "laminar" ? "D-W" : "H-W", exponent,
    rough: kind === "laminar" ? 0.0015 : whole(130, 150),
  };
}

function inputOf(network) {
  const junctions = network.nodes.slice(1);
  return [
    "[JUNCTIONS]", ...junctions.map((n) => `${n.id} ${n.elevation} ${n.withdrawal}`),
    "[RESERVOIRS]", `S ${network.nodes[0].held}`,
    "[PIPES]", ...network.pipes.map((p) => `${p.id} ${p.from} ${p.to} ${p.length} ${p.inside} ${network.rough} ${p.k} Open`),
    "[EMITTERS]", ...junctions.filter((n) => n.coefficient > 0).map((n) => `${n.id} ${n.coefficient}`),
    "[OPTIONS]", "Units LPS", `Headloss ${network.formula}`, "Accuracy 0.00001", "HEADERROR 0.00001", "Trials 500",
    `Emitter Exponent ${network.exponent}`, "[TIMES]", "Duration 0", "[END]", "",
  ].join("\n");
}

const workspace = new Workspace();
await workspace.loadModule();

function solve(network) {
  const project = new Project(workspace);
  workspace.writeFile("net.inp", inputOf(network));
  project.open("net.inp", "r.rpt", "o.bin");
  project.solveH();
  network.settled = project.getStatistic(1) <= 1e-5 && project.getStatistic(2) <= 1e-5; // relative change, head error
  for (const node of network.nodes) {
    const at = project.getNodeIndex(node.id);
    node.given = project.getNodeValue(at, 9);
    node.head = project.getNodeValue(at, 10);
  }
  for (const pipe of network.pipes) pipe.flow = project.getLinkValue(project.getLinkIndex(pipe.id), 8);
  project.close();
}

console.log("# Written by hydraulics_networks.mjs with EPANET 2.3.5 (epanet-js 0.9.0). Lengths and heads in m, insides in mm, flows in l/s.");
console.log("# network NUMBER SHAPE KIND FORMULA ROUGHNESS-OR-C EXPONENT");
console.log("# source ID HEAD | node ID ELEVATION WITHDRAWAL COEFFICIENT HEAD GIVEN | pipe FROM TO LENGTH INSIDE K FLOW");
for (let index = 0, kept = 0; kept < 48; ++index) {
  const network = makeNetwork(index);
  solve(network);
  // Outlets that would draw water in are no garden; our outlets never do.
  if (!network.settled || network.nodes.slice(1).some((n) => n.head - n.elevation < 1)) continue;
  ++kept;
  console.log(`network ${network.name} ${network.formula} ${network.rough} ${network.exponent}`);
  console.log(`source S ${network.nodes[0].held}`);
  for (const n of network.nodes.slice(1)) console.log(`node ${n.id} ${n.elevation} ${n.withdrawal} ${n.coefficient} ${n.head.toPrecision(9)} ${n.given.toPrecision(9)}`);
  for (const p of network.pipes) console.log(`pipe ${p.from} ${p.to} ${p.length} ${p.inside} ${p.k} ${p.flow.toPrecision(9)}`);
}
