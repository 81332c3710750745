// Reads files of rows back with hyparquet and prints what testdata/readers/duckdb
// prints, for TestReaders of cmd/evenswing.
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet'
import { compressors } from 'hyparquet-compressors'

const sampleEvery = 997

const plain = value => (typeof value === 'bigint' ? Number(value) : value ?? null)

const size = value => (typeof value === 'string' ? value.length : Number(value))

async function read(path) {
  const file = await asyncBufferFromFile(path)
  const metadata = await parquetMetadataAsync(file)
  const rows = await parquetReadObjects({ file, metadata, compressors })
  const columns = {}
  for (const { name } of metadata.schema.slice(1)) {
    const values = rows.map(row => row[name]).filter(value => value !== null && value !== undefined)
    columns[name] = { n: values.length, sum: values.reduce((sum, value) => sum + size(value), 0) }
  }
  const sample = rows.filter((_, at) => at % sampleEvery === 0)
    .map(row => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plain(value)])))
  return { rows: rows.length, columns, sample }
}

const files = {}
for (const path of process.argv.slice(2)) {
  files[path] = await read(path)
}
process.stdout.write(JSON.stringify(files))
