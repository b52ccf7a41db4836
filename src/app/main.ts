import { mount } from 'svelte'
import App from './App.svelte'
import { workOffline } from './offline'

mount(App, { target: document.body })
workOffline()
