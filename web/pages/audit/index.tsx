/** Waits for its page. */
export default function Audit() {
  return <h1>Audit</h1>
}
