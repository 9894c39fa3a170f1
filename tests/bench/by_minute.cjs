// Means by the minute of some logs, by DuckDB with two threads: what a general tool takes to read them.
// usage: NODE_PATH=... node by_minute.cjs LOG.csv...
const {DuckDBInstance} = require('@duckdb/node-api');

async function main() {
    const instance = await DuckDBInstance.create(':memory:', {threads: '2'});
    const connection = await instance.connect();
    const files = process.argv.slice(2).map((file) => `'${file.replaceAll("'", "''")}'`).join(', ');
    const reader = await connection.runAndReadAll(
        `SELECT filename, floor(unix_s / 60) AS minute, count(*) AS rows, avg(COLUMNS(* EXCLUDE (filename, unix_s)))
         FROM read_csv([${files}], filename = true) GROUP BY ALL ORDER BY ALL`);
    const rows = reader.getRows();
    console.log(`${rows.length} minutes of ${rows.reduce((sum, row) => sum + Number(row[2]), 0)} rows by DuckDB`);
}

main().catch((error) => {
    console.error(error);
    process.exit(1);
});
