/** Starts the pages. */
import { render } from 'solid-js/web'
import { App } from './app'
import './styles/base.css'

const root = document.getElementById('paintmark')
if (root) render(() => <App />, root)
