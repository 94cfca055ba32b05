import { useBoard } from '../../live/live'
export function Board() {
  const b = useBoard()
  return (
    <div class="page">
      <h1>Board</h1>
      <p>{b.ids().length}</p>
    </div>
  )
}
