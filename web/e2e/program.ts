import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The real program on a port of its own with an empty record; it may be killed and started again on both. */
export class Program {
  readonly folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
  #process: ChildProcess | null = null;
  #port = 0;
  token = '';

  get url(): string {
    return `http://127.0.0.1:${String(this.#port)}/`;
  }

  async start(more: readonly string[] = []): Promise<void> {
    const program = process.env['FETTLE_PROGRAM'];
    if (program === undefined) throw new Error('FETTLE_PROGRAM names the program that is tried');
    const started = spawn(
      program,
      ['serve', '--record', join(this.folder, 'shop.fettle'), '--port', String(this.#port), ...more],
      {
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
    this.#process = started;
    const said = await new Promise<string>((resolve, reject) => {
      let text = '';
      started.stdout.on('data', (piece: Buffer) => {
        text += piece.toString();
        if (/http:\/\/127\.0\.0\.1:\d+\//.test(text)) resolve(text);
      });
      started.on('exit', (code) => {
        reject(new Error(`the program ended with ${String(code)}: ${text}`));
      });
    });
    this.#port = Number(/127\.0\.0\.1:(\d+)/.exec(said)?.[1]);
    const hello = (await (await fetch(`${this.url}api/hello`)).json()) as { token: string };
    this.token = hello.token;
  }

  /** As a power cut does. */
  async kill(): Promise<void> {
    const running = this.#process;
    this.#process = null;
    if (running === null || running.exitCode !== null) return;
    const ended = new Promise((resolve) => running.once('exit', resolve));
    running.kill('SIGKILL');
    await ended;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async get(path: string): Promise<unknown> {
    return (await fetch(this.url + path, { headers: { 'Accept-Language': 'en' } })).json();
  }
  async post(path: string, body: unknown): Promise<unknown> {
    const headers = { 'Content-Type': 'application/json', 'Fettle-Token': this.token, 'Accept-Language': 'en' };
    const answer = await fetch(this.url + path, { method: 'POST', headers, body: JSON.stringify(body) });
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${path}: ${String(answer.status)} ${text}`);
    return JSON.parse(text);
  }
}
