import { mount } from 'svelte'
import '../screen/theme.css'
import App from './App.svelte'
import { workOffline } from './offline'
import { start } from './start'

const shell = await start()
mount(App, { target: document.body, props: { shell } })
workOffline(() =>
  shell.desk.say('A newer Weighbridge is ready: it opens once every tab of this one is closed.', 'hint'),
)
