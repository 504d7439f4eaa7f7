import { PROBLEM_CODES, PROBLEM_KINDS, type ProblemCode } from '../problem-kinds.ts'

/** Every problem that may be answered. */
export function ProblemsPage() {
  return (
    <>
      <h1>Problems</h1>
      <p>What the program may answer instead of doing what was asked, and what to do then.</p>
      <table>
        <thead>
          <tr>
            <th scope="col">Code</th>
            <th scope="col">Status</th>
            <th scope="col">What it says</th>
          </tr>
        </thead>
        <tbody>
          {PROBLEM_CODES.map((code) => (
            <tr>
              <td>
                <a href={`/problems/${code}`}>
                  <code>{code}</code>
                </a>
              </td>
              <td>{PROBLEM_KINDS[code].status}</td>
              <td>{PROBLEM_KINDS[code].title}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

/** One problem: what happened, what to do. */
export function ProblemPage({ code }: { code: ProblemCode }) {
  const { status, title, whatHappened, whatToDo } = PROBLEM_KINDS[code]
  return (
    <>
      <h1>{title}</h1>
      <p>
        <code>{code}</code>, answered with status {status}.
      </p>
      <h2>What happened</h2>
      <p>{whatHappened} Nothing was recorded.</p>
      <h2>What to do</h2>
      <p>{whatToDo}</p>
      <p>
        <a href="/problems">All problems</a>
      </p>
    </>
  )
}
