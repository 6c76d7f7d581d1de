// What a schema refuses, the program refuses: each value of a job, a shop, a part and a finish that use every key is
// replaced by things that do not belong there, and whatever the schema then refuses must be wrong input (status 3) to
// `coatwright check`. The other way round the program may know more: that a name means nothing, that a window is empty.
// Run by tests/source/check_agreement.sh. SAMPLE=1 tries every case, SAMPLE=n every n-th.
'use strict';
const fs = require('fs');
const os = require('os');
const path = require('path');
const { spawnSync } = require('child_process');
const Ajv = require('ajv');

const root = path.resolve(__dirname, '..', '..');
const program = path.resolve(process.env.COATWRIGHT || path.join(root, process.env.BUILD || 'build', 'coatwright'));
const scratch = process.env.TEST_TMP || fs.mkdtempSync(path.join(os.tmpdir(), 'agree-'));
const sample = Number(process.env.SAMPLE || 37);
const strangers = [null, true, false, -1, 0, 2.5, 1e300, '', ' ', 'no-such-word', '12', '-3 mm', '1,5 %', [], {}, [null], { 'no-such-key': 1 }];

const ajv = new Ajv({ allErrors: false });
const read = (file) => JSON.parse(fs.readFileSync(file, 'utf8'));
for (const file of fs.readdirSync(path.join(root, 'finishes/schema')))
  ajv.addSchema(read(path.join(root, 'finishes/schema', file)));
const accepted = (schema, value) => ajv.getSchema(`${schema}.schema.json`)(value);

const finish = {
  ...read(path.join(root, 'finishes/hardwax-oil-two-part.json')),
  finish: 'own-oil',
  induction: '5 min',
  kits: [{ contents: { oil: '1 l', hardener: '333 ml' }, price: '96.00', label: 'kit' }],
  'later-times': { recoat: ['13 h', '4 d'] },
  'late-times': { 'after-coat': 2, recoat: ['14 h', '4 d'] },
  'wipe-off-from': 1,
  'pot-mass': '2 kg',
  'by-tool': { cloth: { coverage: '28 m2/l', 'no-between': true, minutes: { times: 1.2, tolerance: '20 %' }, loss: '4 ml' } },
  'thin-most': '5 %',
  'dry-film-most': '90 um',
  polish: ['10 min', '4 h'],
  between: { sand: 320 },
  solvent: 'none',
};

const job = {
  format: 'coatwright-job/1', job: 'Desk', customer: 'Reading room', units: 'mm', zone: 'Europe/London', currency: 'GBP',
  start: '2027-03-01 08:00', deliver: '2027-04-19', 'deliver-at': 'wrap', reserve: '10 %', finishes: 'own',
  stock: 'stock.csv',
  shop: {
    people: 2, country: 'UK', hours: { mon: ['08:00-12:30', '13:00-17:00'] }, closed: ['2027-03-08', '2027-03-12..2027-03-14'], busy: ['busy.ics'],
    air: [{ from: '07:00', temperature: '20 C', humidity: '50 %' }, { on: '2027-03-05', from: '07:00', temperature: '68 F', humidity: '50 %' }],
    rack: '4 m2', 'spray-places': 1, 'dust-room': 'shared', settle: '30 min', scale: '1 g', 'set-up': '10 min',
    'clean-up': { brush: '10 min' }, handling: '1 min', rates: { brush: '7 m2/h', sand: '8 m2/h' }, losses: { brush: '10 ml' },
    transfer: { hvlp: '65 %' }, 'rate-per-hour': '45.00',
  },
  schedules: {
    oil: [
      { raise: true, dry: '2 h' }, { sand: 150 }, { mask: 'the tenons', takes: '20 min' },
      { coat: 'own-oil', coats: 2, by: 'pad', thin: '10 %', between: { scuff: 320 } }, { wait: 'cured' }, { wait: '2 d' }, { rub: 'steel wool 0000' },
      { polish: true }, { scuff: 400 }, { task: 'fit the glass', takes: '1 h' },
    ],
  },
  pieces: [{ piece: 'top', laid: 'flat', after: ['fit hinges'], ready: '2027-03-02', rack: '0.9 m2', use: ['water'] }],
  tasks: [{ task: 'fit hinges', takes: '45 min', after: ['leg handle'], before: ['top'] }],
  parts: [
    { part: 'top', piece: 'top', qty: 1, shape: 'board', wood: 'oak', length: '1 m', width: 600, thickness: 25, all: 'oil', covered: 'back 1 m x 50 mm', work: 1.5, note: 'x' },
    { part: 'leg', shape: 'round', diameter: '45 mm', length: 700, face: 'oil', ends: '-' },
    { part: 'tile', shape: 'triangle', sides: '30 40 50', thickness: 4, face: 'oil', chamfer: '1 mm' },
    { part: 'panel', size: '1x4', length: '600 mm', face: 'oil', back: '-', grooves: '3 x 600 mm x 12 mm' },
    { part: 'more', shape: 'area', area: '1.2 m2', region: 'ends', ends: 'oil' },
  ],
};

// Every value inside a document, as the keys that lead to it.
function* ways(value, way = []) {
  if (way.length) yield way;
  if (value && typeof value === 'object') for (const key of Object.keys(value)) yield* ways(value[key], [...way, key]);
}

function changed(value, way, put) {
  const copy = JSON.parse(JSON.stringify(value));
  let at = copy;
  for (const key of way.slice(0, -1)) at = at[key];
  at[way[way.length - 1]] = put;
  return copy;
}

function status(theJob, theFinish) {
  fs.writeFileSync(path.join(scratch, 'own', 'own-oil.json'), JSON.stringify(theFinish));
  fs.writeFileSync(path.join(scratch, 'job.json'), JSON.stringify(theJob));
  const done = spawnSync(program, ['check', 'job.json'], { cwd: scratch, encoding: 'utf8' });
  return [done.status, done.stderr + done.stdout];
}

let passed = 0;
let failed = 0;
function judge(name, good, detail) {
  if (good) passed++;
  else {
    failed++;
    console.log(`${name}: ${detail}`);
  }
}

// An empty cell of a part is no cell, and a chamfer of 0 is none: editors need not say so.
function emptyCell(way, stranger) {
  return way[0] === 'parts' && way.length === 3 && (String(stranger).trim() === '' || (way[2] === 'chamfer' && stranger === 0));
}

function agree(schema, value, run) {
  let n = 0;
  for (const way of ways(value))
    for (const stranger of strangers) {
      if (n++ % sample) continue;
      const bad = changed(value, way, stranger);
      if (emptyCell(way, stranger)) continue;
      if (accepted(schema, bad)) continue;
      const [code, told] = run(bad);
      judge(`/${way.join('/')} = ${JSON.stringify(stranger)}`, code === 3 || code === 4, `the schema refuses it, status ${code}: ${told.trim().slice(0, 200)}`);
    }
}

fs.mkdirSync(path.join(scratch, 'own'), { recursive: true });
fs.writeFileSync(path.join(scratch, 'stock.csv'), 'finish,component,amount,opened,best-before\nown-oil,oil,500 ml,,\n');
fs.writeFileSync(path.join(scratch, 'busy.ics'), 'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nEND:VCALENDAR\r\n');
const [code, told] = status(job, finish);
judge('the job as it is', accepted('job', job) && accepted('finish', finish) && code === 0, `${code} ${JSON.stringify(ajv.errors)} ${told}`);
agree('job', job, (bad) => status(bad, finish));
agree('finish', finish, (bad) => status(job, bad));
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
