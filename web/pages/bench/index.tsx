/** Waits for its page. */
export default function Bench() {
  return <h1>Bench</h1>
}
