import { readinessRows, readinessTable } from './readiness.ts'
const rows = await readinessRows(Number(process.argv[2] ?? 20), (l) => console.error(l))
console.log(readinessTable(rows))
