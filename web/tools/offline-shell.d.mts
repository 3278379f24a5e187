import type { Plugin } from 'vite';

export function offlineShell(): Plugin;
