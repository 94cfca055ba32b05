/** Stands wherever made-up values are shown. */
export function Invented() {
  return <span class="invented">values invented</span>
}
