/** Waits for its page. */
export default function Engine() {
  return <h1>Engine</h1>
}
