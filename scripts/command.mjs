import { spawn } from 'node:child_process';
import { stripVTControlCharacters } from 'node:util';

/**
 * Runs a program to its end and keeps what it says.
 * @param {string} program
 * @param {readonly string[]} parameters
 * @param {import('node:child_process').SpawnOptions} options
 * @returns {Promise<{ code: number, output: string }>}
 */
export function run(program, parameters, options) {
  return new Promise((resolve) => {
    const child = spawn(program, parameters, { ...options, stdio: ['ignore', 'pipe', 'pipe'] });
    const output = [];
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => output.push(chunk));
    const end = (code, extra = '') => resolve({ code, output: Buffer.concat(output).toString() + extra });
    child.once('error', (error) => end(1, error.message));
    child.once('close', (code, signal) => end(code ?? 1, signal ? `ended by ${signal}` : ''));
  });
}

/**
 * The last lines of a program's output, for an error message.
 * @param {string} output
 */
export function tail(output) {
  return stripVTControlCharacters(output).trim().split('\n').slice(-20).join('\n');
}

/**
 * Runs a program to its end in the open: what it says goes where this process says things.
 * @param {string} program
 * @param {readonly string[]} parameters
 * @param {import('node:child_process').SpawnOptions} options
 * @returns {Promise<number>} its exit code
 */
export function runVisibly(program, parameters, options) {
  return new Promise((resolve) => {
    const child = spawn(program, parameters, { ...options, stdio: ['ignore', 'inherit', 'inherit'] });
    child.once('error', (error) => {
      process.stderr.write(`${program}: ${error.message}\n`);
      resolve(1);
    });
    child.once('close', (code) => resolve(code ?? 1));
  });
}
