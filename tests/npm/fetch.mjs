// Puts the packages of a list into a folder, once, without npm (387 Debian packages): the list names each
// version and its hash. One with a bundle is used by that one file, so that its own parts need not be fetched.
// usage: node fetch.mjs LIST FOLDER
import {execFileSync} from 'node:child_process';
import {createHash} from 'node:crypto';
import {existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';

const [, , listFile, folder] = process.argv;
const list = readFileSync(listFile, 'utf8');
const stamp = join(folder, 'packages.json');
if (existsSync(stamp) && readFileSync(stamp, 'utf8') === list) process.exit(0);

async function add(wanted, draft) {
    const file = `${wanted.name.split('/').pop()}-${wanted.version}.tgz`;
    const answer = await fetch(`https://registry.npmjs.org/${wanted.name}/-/${file}`,
        {signal: AbortSignal.timeout(100000)});
    if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
    const bytes = Buffer.from(await answer.arrayBuffer());
    const hash = 'sha512-' + createHash('sha512').update(bytes).digest('base64');
    if (hash !== wanted.integrity) throw new Error(`${file} is not what the list says: ${hash}`);
    const place = join(draft, 'node_modules', wanted.name);
    mkdirSync(place, {recursive: true});
    execFileSync('tar', ['-xzf', '-', '-C', place, '--strip-components=1'], {input: bytes});
    if (wanted.bundle) {
        writeFileSync(join(place, 'package.json'),
            JSON.stringify({name: wanted.name, version: wanted.version, main: wanted.bundle}));
    }
}

const draft = `${folder}.${process.pid}`;
try {
    mkdirSync(draft, {recursive: true});
    await Promise.all(JSON.parse(list).map((wanted) => add(wanted, draft)));
    writeFileSync(join(draft, 'packages.json'), list);
    rmSync(folder, {recursive: true, force: true});
    renameSync(draft, folder);
} catch (error) {
    rmSync(draft, {recursive: true, force: true});
    console.log(`${listFile}: can't be fetched: ${error.cause ?? error}`);
    process.exit(1);
}
