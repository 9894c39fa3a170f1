// Loads task data with the npm library isoxml and holds it against summary.json and fields.csv's fields.
// usage: NODE_PATH=... node isoxml_check.cjs RESULTS (a folder that podrate replay --taskdata wrote)
const assert = require('node:assert/strict');
const {readdirSync, readFileSync} = require('node:fs');
const {join} = require('node:path');
const JSZip = require('jszip');
const turf = require('@turf/turf');
const {ISOXMLManager} = require('isoxml');

const results = process.argv[2];
const sum = (list) => list.reduce((a, b) => a + b, 0);

async function load() {
    const zip = new JSZip();
    const folder = join(results, 'taskdata');
    for (const name of readdirSync(folder)) zip.file(`TASKDATA/${name}`, readFileSync(join(folder, name)));
    const manager = new ISOXMLManager();
    await manager.parseISOXMLFile(await zip.generateAsync({type: 'uint8array'}), 'application/zip');
    assert.deepEqual(manager.getWarnings(), []);
    return manager.rootElement.attributes;
}

// Of a task: the sum of one entry over its times.
function total(task, ddi) {
    const values = task.attributes.Time.flatMap((time) => time.attributes.DataLogValue);
    return sum(values.filter((v) => v.attributes.ProcessDataDDI === ddi).map((v) => v.attributes.ProcessDataValue));
}

// Each total belongs to an element of the task's own device that says it tells such a thing.
function checkTotals(task) {
    const device = task.attributes.DeviceAllocation[0].attributes.DeviceIdRef.entity;
    for (const value of task.attributes.Time[0].attributes.DataLogValue) {
        const element = value.attributes.DeviceElementIdRef.entity;
        assert.equal(element.getParentDevice(), device);
        assert.ok(element.getDataProcess(value.attributes.ProcessDataDDI));
        assert.ok(element.getValuePresentation(value.attributes.ProcessDataDDI));
    }
}

// The records are in order, within the task's time, and say what their elements can say.
function checkLog(task, log) {
    const parsed = log.parseBinaryFile();
    assert.deepEqual(log.parsingErrors, []);
    assert.ok(parsed.timeLogs.length > 0);
    assert.equal(log.attributes.Filelength, log.binaryData.length);
    const time = task.attributes.Time[0].attributes;
    let before = -Infinity;
    for (const record of parsed.timeLogs) {
        assert.ok(record.time > before);
        before = record.time;
        assert.ok(record.time >= new Date(time.Start) && record.time <= new Date(time.Stop));
    }
    for (const info of parsed.valuesInfo) {
        assert.ok(info.DDEntityName && info.unit !== undefined && info.deviceElementDesignator);
        assert.equal(typeof info.valueKey, 'string');
    }
    return parsed;
}

// Where and how much a log cut, by work state, width and distance between its places; metres on a sphere.
function sweptByPlaces(log) {
    const filled = log.getFilledTimeLogs();
    const value = (record, ddi) => Object.entries(record.values).find(([key]) => key.startsWith(ddi))?.[1];
    const radians = Math.PI / 180;
    let swept = 0;
    for (let i = 1; i < filled.length; ++i) {
        const [a, b] = [filled[i - 1], filled[i]];
        if (b.time - a.time > 1500 || value(a, '008D') !== 1) continue;
        const north = (b.position.PositionNorth - a.position.PositionNorth) * radians * 6371000;
        const east = (b.position.PositionEast - a.position.PositionEast) * radians * 6371000 *
            Math.cos(a.position.PositionNorth * radians);
        swept += Math.hypot(north, east) * value(a, '0043') / 1000;
    }
    return swept;
}

async function main() {
    const data = await load();
    const summary = JSON.parse(readFileSync(join(results, 'summary.json')));
    assert.equal(data.Device.length, summary.machines.length);
    const tasks = data.Task;
    const near = (kg, tonnes, what) => {
        console.log(`${what}: ${kg} kg by isoxml, ${tonnes} t by us`);
        assert.ok(Math.abs(kg - 1000 * tonnes) < 1.06, what);  // summary.json has a tenth of a kilogram
    };
    near(sum(tasks.map((task) => total(task, '005A'))), summary.total.harvested_t, 'total');
    const m2 = sum(tasks.map((task) => total(task, '0074')));
    console.log(`area: ${m2} m2 by isoxml, ${summary.total.area_ha} ha by us`);
    assert.ok(Math.abs(m2 - 1e4 * summary.total.area_ha) < 1.6, 'area');
    summary.machines.forEach((machine, index) => {
        const device = data.Device[index].attributes;
        assert.equal(device.DeviceDesignator, machine.id.slice(0, 32));
        const own = tasks.filter((task) => task.attributes.DeviceAllocation[0].attributes.DeviceIdRef.entity ===
            data.Device[index]);
        near(sum(own.map((task) => total(task, '005A'))), machine.harvested_t, machine.id);
        const swept = sum(own.map((task) => total(task, '0074')));
        assert.ok(Math.abs(swept - 1e4 * machine.area_ha) < 1.6, `area of ${machine.id}`);
    });
    const partfields = data.Partfield ?? [];
    for (const field of summary.fields) {
        const partfield = partfields.find((p) => p.attributes.PartfieldDesignator === field.name);
        assert.ok(partfield || field.name === 'elsewhere', field.name);
        const own = tasks.filter((task) => task.attributes.PartfieldIdRef?.entity === partfield);
        near(sum(own.map((task) => total(task, '005A'))), field.harvested_t, field.name);
        if (field.field_area_ha === null) continue;
        assert.ok(Math.abs(partfield.attributes.PartfieldArea - 1e4 * field.field_area_ha) < 1.6);
        const shape = partfield.toGeoJSON();
        assert.ok(shape && shape.coordinates.flat(3).length >= 8, `boundary of ${field.name}`);
        // Less its holes, as turf reckons it on a sphere.
        const theirs = turf.area(shape);
        console.log(`${field.name}: boundary of ${theirs.toFixed(0)} m2 by turf`);
        assert.ok(Math.abs(theirs - 1e4 * field.field_area_ha) < 0.01 * theirs);
    }
    let records = 0;
    for (const task of tasks) {
        checkTotals(task);
        for (const log of task.attributes.TimeLog ?? []) {
            const parsed = checkLog(task, log);
            records += parsed.timeLogs.length;
            const told = total(task, '0074');
            if (!log.timeLogHeader.attributes.Position || told < 5000) continue;
            const swept = sweptByPlaces(log);
            console.log(`${task.attributes.TaskDesignator}: ${told} m2 told, ${swept.toFixed(0)} by its places`);
            assert.ok(Math.abs(swept - told) < 0.05 * told);
        }
    }
    console.log(`${tasks.length} tasks, ${records} records read`);
}

main().catch((error) => {
    console.log(error);
    process.exit(1);
});
