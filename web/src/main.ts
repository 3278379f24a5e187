import './style.css';
import './pages.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { openShell } from './state/kept_here.svelte';

const place = document.getElementById('page');
if (place !== null) mount(App, { target: place });
void openShell();
