// Holds the shipped finishes, the examples and what the program prints against their JSON Schemas. Run by
// tests/report/check_schema.sh. Every accepted document is also spoiled (a key too many, a key too few) and must then be
// refused, so that a schema which lets everything pass is found out.
'use strict';
const fs = require('fs');
const os = require('os');
const path = require('path');
const { spawnSync } = require('child_process');
const Ajv = require('ajv');

const root = path.resolve(__dirname, '..', '..');
const program = process.env.COATWRIGHT || path.join(root, process.env.BUILD || 'build', 'coatwright');
const scratch = process.env.TEST_TMP || fs.mkdtempSync(path.join(os.tmpdir(), 'schema-'));
const commands = ['area', 'buy', 'mix', 'timetable', 'plan'];
// The form of a plan does not depend on how long it was sought.
const brief = (command) => (['check', 'area'].includes(command) ? [] : ['--effort', '5000000']);
const statuses = { check: [0], area: [0], buy: [0], mix: [0, 1], timetable: [0, 1], plan: [0, 1] };

let passed = 0;
let failed = 0;
function check(name, good, detail) {
  if (good) passed++;
  else {
    failed++;
    console.log(`${name}: ${detail}`);
  }
}

const ajv = new Ajv({ allErrors: true, strictKeywords: true, strictDefaults: true });
const read = (file) => JSON.parse(fs.readFileSync(file, 'utf8'));
const list = (folder, ending) =>
  fs.existsSync(folder) ? fs.readdirSync(folder).filter((f) => f.endsWith(ending)).sort().map((f) => path.join(folder, f)) : [];

function loadSchemas() {
  const files = [...list(path.join(root, 'finishes/schema'), '.json'), ...list(path.join(root, 'tests/schema'), '.json')];
  files.forEach((file) => ajv.addSchema(read(file)));
  for (const file of files) {
    const id = path.basename(file);
    let told = read(file).$id === id ? '' : 'its $id is not its file name';
    try {
      ajv.getSchema(id);
    } catch (e) {
      told = e.message;
    }
    check(id, !told, told);
  }
}

function faults(schema, value) {
  const validate = ajv.getSchema(`${schema}.schema.json`);
  return validate(value) ? '' : validate.errors.slice(0, 5).map((e) => `${e.instancePath || e.dataPath || '/'} ${e.message} ${JSON.stringify(e.params)}`).join('; ');
}

// The same document with one fault more, for each way of spoiling it.
function spoiled(value, needed) {
  const copy = () => JSON.parse(JSON.stringify(value));
  const all = [];
  const more = copy();
  more['no-such-key'] = 1;
  all.push(['a key too many', more]);
  for (const key of needed) {
    const less = copy();
    delete less[key];
    all.push([`without "${key}"`, less]);
  }
  for (const inner of Object.keys(value)) {
    const deep = copy();
    const at = Array.isArray(deep[inner]) ? deep[inner][0] : deep[inner];
    if (!at || typeof at !== 'object' || inner === 'sources' || inner === 'schedules') continue;
    at['no-such-key'] = 1;
    all.push([`a key too many in "${inner}"`, deep]);
  }
  return all;
}

function holds(name, schema, value) {
  const told = faults(schema, value);
  check(name, !told, told);
  if (told || Array.isArray(value)) return;
  for (const [how, bad] of spoiled(value, ajv.getSchema(`${schema}.schema.json`).schema.required || []))
    check(`${name}, ${how}`, faults(schema, bad), 'is accepted');
}

// One change to a shipped finish, and the schema must refuse it.
const wrongFinish = [
  ['no unit', (f) => (f.times.handle = '6')],
  ['a decimal comma', (f) => (f.coverage.tolerance = '1,5 %')],
  ['a negative time', (f) => (f.times.handle = '-6 h')],
  ['a bare number', (f) => (f['pot-life'] = 240)],
  ['an unknown tool', (f) => f.by.push('broom')],
  ['an unknown state', (f) => (f.times['dry-ish'] = '2 h')],
  ['a window with one end', (f) => (f.times.recoat = ['6 h'])],
  ['a mixed coverage', (f) => (f.coverage['wet-film'] = '100 um')],
  ['no density', (f) => delete f.components[0].density],
  ['a pack without size', (f) => (f.components[0].packs = [{ price: '3.00' }])],
  ['two components and no ratio tolerance', (f) => { f.components.push({ ...f.components[0] }); delete f['ratio-tolerance']; }],
  ['a strength above 3', (f) => (f.resists.water = 4)],
  ['an unknown caution', (f) => (f.cautions = ['bad-luck'])],
  ['parts of 0', (f) => (f.components[0].parts = 0)],
];

const kit = { contents: { oil: '1 l', hardener: '400 ml' }, price: '96.00', label: 'kit for a table' };

function finishes() {
  const files = list(path.join(root, 'finishes'), '.json');
  check('finishes', files.length >= 36, `${files.length} shipped, 36 expected`);
  for (const file of files) {
    const finish = read(file);
    holds(path.basename(file), 'finish', finish);
    check(`${path.basename(file)}, its name`, finish.finish === path.basename(file, '.json'), `holds ${finish.finish}`);
  }
  const sold = read(path.join(root, 'finishes/hardwax-oil-two-part.json'));
  holds('a finish sold as a kit', 'finish', { ...sold, kits: [kit] });
  check('a kit without contents', faults('finish', { ...sold, kits: [{ price: '96.00' }] }), 'is accepted');
  for (const [what, spoil] of wrongFinish) {
    const finish = read(path.join(root, 'finishes/wiping-varnish.json'));
    spoil(finish);
    check(`a finish with ${what}`, faults('finish', finish), 'is accepted');
  }
}

// The rule tables that come with the finishes, and ways to spoil them.
const wrongRule = [
  ['without a reason', (r) => delete r.because],
  ['of an unknown trait', (r) => (r.wood = ['greasy'])],
  ['of two marks', (r) => (r['resists-below'] = { water: 2, heat: 2 })],
  ['half off', (r) => (r.off = true)],
];

function rules() {
  const fit = read(path.join(root, 'finishes/rules/fit.json')), sundries = read(path.join(root, 'finishes/rules/sundries.json'));
  holds('fit.json', 'rules', fit);
  holds('sundries.json', 'sundries', sundries);
  holds('a rule that is off', 'rules', { ...fit, rules: [{ rule: 'oily-wood', off: true }] });
  for (const [what, spoil] of wrongRule) {
    const rule = { ...fit.rules[0] };
    spoil(rule);
    check(`a rule ${what}`, faults('rules', { ...fit, rules: [rule] }), 'is accepted');
  }
  check('a sundry by nothing', faults('sundries', { ...sundries, sundries: [{ ...sundries.sundries[0], by: [] }] }), 'is accepted');
}

function run(args, stdin) {
  const done = spawnSync(program, args, { input: stdin || '', encoding: 'utf8', maxBuffer: 1 << 28 });
  let value = null;
  try {
    value = JSON.parse(done.stdout);
  } catch (e) {
    value = null;
  }
  return { status: done.status, value, text: done.stdout.slice(0, 200), told: done.stderr.slice(0, 400) };
}

function outputs(job) {
  for (const command of ['check', ...commands]) {
    const name = `${command} ${path.basename(job)}`;
    const got = run([command, job, '--json', '--now', '2027-01-04T08:00:00Z', ...brief(command)]);
    check(`${name}, exit status`, statuses[command].includes(got.status), `${got.status}: ${got.told}`);
    if (got.value) holds(name, command, got.value);
    else check(name, false, `no JSON: ${got.text} ${got.told}`);
  }
}

function examples() {
  const folder = path.join(root, 'examples');
  const jobs = list(folder, '.json').filter((file) => read(file).format === 'coatwright-job/1');
  for (const job of jobs) {
    const value = read(job);
    holds(path.basename(job), 'job', value);
    if (typeof value.shop === 'string') holds(value.shop, 'shop', read(path.join(folder, value.shop)));
    for (const file of value.finishes ? list(path.join(folder, value.finishes), '.json') : [])
      holds(path.relative(root, file), 'finish', read(file));
    if (fs.existsSync(program)) outputs(job);
  }
  if (fs.existsSync(program)) jobs.forEach(cost);
  if (fs.existsSync(program)) jobs.forEach(today);
  if (fs.existsSync(program)) chance(path.join(folder, 'doors.json'));
}

// What a job costs is an object of its own.
function cost(job) {
  const got = run(['buy', job, '--cost', '--json', ...brief('buy')]);
  const name = `buy --cost ${path.basename(job)}`;
  check(`${name}, exit status`, got.status === 0, `${got.status}: ${got.told}`);
  if (got.value) holds(name, 'cost', got.value);
  else check(name, false, `no JSON: ${got.text} ${got.told}`);
}

// The cards of the first day, and of one without work.
function today(job) {
  const { batches } = run(['timetable', job, '--json', ...brief('timetable')]).value;
  for (const day of [batches[0].start.slice(0, 10), '2026-01-03']) {
    const got = run(['today', job, '--day', day, '--json', ...brief('today')]);
    const name = `today ${path.basename(job)} ${day}`;
    check(`${name}, exit status`, [0, 1].includes(got.status), `${got.status}: ${got.told}`);
    if (got.value) holds(name, 'today', got.value);
    else check(name, false, `no JSON: ${got.text} ${got.told}`);
  }
}

// The chance is a member only where it was asked for.
function chance(job) {
  const plain = run(['timetable', job, '--json']).value;
  const asked = run(['timetable', job, '--json', '--chance']).value;
  check('no chance unasked', plain && !('chance' in plain), 'there it is');
  check('a chance when asked', asked && 'chance' in asked, 'it is missing');
  if (asked) holds('timetable --chance doors.json', 'timetable', asked);
}

// What is printed without a job: the table, one finish of it, and a mix.
function alone() {
  if (!fs.existsSync(program)) return;
  for (const [args, schema] of [
    [['finishes'], 'finishes'],
    [['woods'], 'woods'],
    [['finishes', 'hardwax-oil-two-part'], 'finishes'],
    [['finishes', '--own', 'examples/kitchen-finishes'], 'finishes'],
    [['finishes', 'hardwax-oil-two-part', '--from-label'], 'finish'],
    [['mix', 'hardwax-oil-two-part', '400 ml'], 'mix'],
    [['mix', 'danish-oil', '1', 'qt', '--at', '15 C'], 'mix'],
  ]) {
    const got = run([...args, '--json']);
    check(`${args.join(' ')}, exit status`, got.status === 0, `${got.status}: ${got.told}`);
    if (got.value) holds(args.join(' '), schema, got.value);
    else check(args.join(' '), false, `no JSON: ${got.text} ${got.told}`);
  }
}

// A job with a log: what is left and what was done, and the log itself.
function logged() {
  if (!fs.existsSync(program)) return;
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'schema-log-'));
  fs.cpSync('examples', folder, { recursive: true });
  fs.writeFileSync(path.join(folder, 'desk.log'), [
    { entry: 1, written: '2027-03-01T09:00:00Z', step: 'legs/varnish/1/apply', began: '2027-03-01T08:30Z', done: '2027-03-01T08:50Z', used: '75 ml', person: 'Ann', note: 'thin' },
    { entry: 2, again: 'legs/varnish/1/apply', because: 'ran', sand: 320 },
    { entry: 3, skip: 'case/varnish/0/sand-180' },
    { entry: 4, air: { from: '2027-03-01T08:00Z', temperature: '12 C', humidity: '80 %' } },
    { entry: 5, undo: 3 },
  ].map((entry) => `${JSON.stringify(entry)}\n`).join(''));
  for (const [command, schema] of [['log', 'log'], ['timetable', 'timetable'], ['plan', 'plan']]) {
    const got = run([command, path.join(folder, 'desk.json'), '--json', '--now', '2027-03-01T10:00Z']);
    if (got.value) holds(`${command} of a job with a log`, schema, got.value);
    else check(`${command} of a job with a log`, false, `no JSON: ${got.text} ${got.told}`);
  }
  const got = run(['learned', folder, '--json']);
  if (got.value) holds('learned from the folder of a job with a log', 'learned', got.value);
  else check('learned from the folder of a job with a log', false, `no JSON: ${got.text} ${got.told}`);
  fs.rmSync(folder, { recursive: true });
}

// Jobs with mistakes: status 3 (4: no such file), and on standard output the errors as an object.
const small = {
  format: 'coatwright-job/1', job: 'small', zone: 'Europe/London', start: '2027-03-01 08:00', deliver: '2027-03-19',
  schedules: { oil: [{ coat: 'danish-oil' }] },
  parts: [{ part: 'shelf', length: 900, width: 250, thickness: 18, wood: 'oak', all: 'oil' }],
};
const wrongJobs = [
  ['broken JSON', '{"format": "coatwright-job/1",', 3],
  ['an unknown key', JSON.stringify({ ...small, delivers: '2027-03-19' }), 3],
  ['an unknown finish', JSON.stringify({ ...small, schedules: { oil: [{ coat: 'danish-oyl' }] } }), 3],
  ['five mistakes', JSON.stringify({ ...small, colour: 1, zone: 'Europe/Nowhere', start: 'soon', reserve: '10', currency: 7 }), 3],
  ['delivery before the start', JSON.stringify({ ...small, deliver: '2027-02-01' }), 3],
];

function mistakes() {
  if (!fs.existsSync(program)) return;
  const errors = (name, got, status) => {
    check(`${name}, exit status`, got.status === status, `${got.status}, expected ${status}: ${got.told}`);
    if (got.value) holds(name, 'errors', got.value);
    else check(name, false, `no JSON: ${got.text} ${got.told}`);
  };
  for (const [what, text, status] of wrongJobs) {
    const file = path.join(scratch, 'wrong.json');
    fs.writeFileSync(file, text);
    for (const command of ['check', ...commands]) errors(`${command}, ${what}`, run([command, file, '--json']), status);
    errors(`area -, ${what}`, run(['area', '-', '--json'], text), status);
  }
  errors('no such file', run(['plan', path.join(scratch, 'none.json'), '--json']), 4);
  const good = run(['area', '-', '--json'], JSON.stringify(small));
  check('the job without a mistake', good.status === 0, `${good.status}: ${good.told}`);
}

loadSchemas();
finishes();
rules();
examples();
alone();
logged();
mistakes();
if (!fs.existsSync(program)) console.log(`${program} is not built: what it prints was not checked`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
