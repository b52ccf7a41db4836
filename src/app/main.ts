import { mount } from 'svelte'
import '../screen/theme.css'
import App from './App.svelte'
import { workOffline } from './offline'
import { start } from './start'

const shell = await start()
mount(App, { target: document.body, props: { shell } })
workOffline()
