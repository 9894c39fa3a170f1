// Prints tests/core/canboat.txt: frames of NMEA 2000, and what canboatjs reads in them.
// Usage: npm install @canboat/canboatjs; node canboat.mjs >../core/canboat.txt (made with canboatjs 3.20.0).
import canboat from '@canboat/canboatjs';

const METHODS = ['no GNSS', 'GNSS fix', 'DGNSS fix', 'Precise GNSS', 'RTK Fixed Integer', 'RTK float',
    'Estimated (DR) mode', 'Manual Input', 'Simulate mode'];
const REFERENCES = ['True', 'Magnetic', 'Error'];

// Numbers that are the same everywhere: Marsaglia's xorshift.
let state = 2463534242;
function random() {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
}
const between = (low, high) => low + Math.floor(random() / 2 ** 32 * (high - low + 1));

// Little-endian bytes of an integer; negative ones in two's complement.
function bytes(value, count) {
    let rest = BigInt.asUintN(8 * count, BigInt(value));
    const out = [];
    for (let i = 0; i < count; ++i, rest >>= 8n) out.push(Number(rest & 0xFFn));
    return out;
}
const hex = (list) => list.map((byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join('');

// A value by chance, and now and then one of the ends of its bytes.
function some(low, high, count, signed) {
    const top = signed ? 2n ** BigInt(8 * count - 1) - 1n : 2n ** BigInt(8 * count) - 1n;
    const ends = [top, top - 1n, top - 2n, top - 3n, signed ? -top - 1n : 0n];
    return random() % 5 === 0 ? ends[random() % 5] : BigInt(between(low, high));
}
const e16 = (low, high) => (random() % 8 === 0 ? some(0, 1, 8, true) : BigInt(between(low, high)) * 10000000070n);
const day = () => bytes(some(7305, 40000, 2, false), 2);
const time = () => bytes(some(0, 864010000, 4, false), 4);

function fast(id, message, list) {
    const frames = [[message << 5, list.length, ...list.slice(0, 6)]];
    for (let at = 6; at < list.length; at += 7) {
        const part = list.slice(at, at + 7);
        frames.push([(message << 5) | frames.length, ...part, ...Array(7 - part.length).fill(0xFF)]);
    }
    return frames.map((frame) => `${id}#${hex(frame)}`);
}

function gnss(message) {
    const list = [message, ...day(), ...time(), ...bytes(e16(-89999999, 89999999), 8),
        ...bytes(e16(-179999999, 179999999), 8), ...bytes(between(0, 900000000), 8),
        (between(0, 8) << 4) | between(0, 4), 0xFC, 14, ...bytes(80, 2), ...bytes(150, 2), ...bytes(4750, 4), 0];
    return fast('0DF8051C', message % 8, list);
}

const single = {
    '09F8011C': () => [...bytes(some(-900000000, 900000000, 4, true), 4),
        ...bytes(some(-1800000000, 1800000000, 4, true), 4)],
    '09F8021C': () => [between(0, 252), 0xFC | (random() % 3 ? 0 : between(0, 2)),
        ...bytes(some(0, 62831, 2, false), 2), ...bytes(some(0, 1500, 2, false), 2), 0xFF, 0xFF],
    '0DF1191C': () => [between(0, 252), ...bytes(some(-31415, 31415, 2, true), 2),
        ...bytes(some(-11000, 11000, 2, true), 2), ...bytes(some(-11000, 11000, 2, true), 2), 0xFF],
    '0DF0101C': () => [between(0, 252), 0xF0 | between(0, 5), ...day(), ...time()],
    '0DF8091C': () => [...day(), ...time(), ...bytes(60, 2)],
};

function read(frames) {
    const parser = new canboat.FromPgn({ returnNulls: true });
    parser.on('warning', () => {});
    parser.on('error', () => {});
    let message;
    for (const frame of frames) message = parser.parseString(`(0.000000) can0 ${frame}`) ?? message;
    const f = message.fields;
    const told = { lat: f.latitude, lon: f.longitude, ref: f.cogReference, cog: f.cog, sog: f.sog, pitch: f.pitch,
        roll: f.roll, method: f.method };
    if (told.ref !== undefined) told.ref = REFERENCES.indexOf(told.ref);
    if (told.method !== undefined) told.method = METHODS.indexOf(told.method);
    if (f.date) told.day = Date.parse(`${f.date.replaceAll('.', '-')}T00:00:00Z`) / 86400e3;
    if (f.time) told.time = f.time.split(':').reduce((sum, part) => 60 * sum + Number(part), 0).toFixed(4);
    return Object.entries(told).filter(([, value]) => value !== undefined && value !== null)
        .map(([name, value]) => ` ${name}=${value}`).join('');
}

console.log('# Frames, and what canboatjs 3.20.0 reads in them: tests/reference/canboat.mjs. Degrees, radians, m/s, days since 1970, s.');
for (const [id, make] of Object.entries(single)) {
    for (let i = 0; i < 40; ++i) {
        const frames = [`${id}#${hex(make())}`];
        console.log(`${frames.join(' ')} :${read(frames)}`);
    }
}
for (let i = 0; i < 40; ++i) {
    const frames = gnss(i);
    console.log(`${frames.join(' ')} :${read(frames)}`);
}
