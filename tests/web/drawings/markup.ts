import type { ReactElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';

export const drawn = (drawing: ReactElement): string => renderToStaticMarkup(drawing);

/** The first element that carries this attribute with this value, as text. */
export function elementWith(markup: string, attribute: string, value: string): string | undefined {
  return new RegExp(`<[a-z]+[^>]*\\b${attribute}="${value}"[^>]*>`).exec(markup)?.[0];
}

export const elementsWith = (markup: string, attribute: string, value: string): string[] =>
  markup.match(new RegExp(`<[a-z]+[^>]*\\b${attribute}="${value}"[^>]*>`, 'g')) ?? [];

export const accessibleName = (markup: string): string => /^<[^>]*aria-label="([^"]*)"/.exec(markup)?.[1] ?? '';

/** The abscissa a path starts at. */
export function startOf(element: string | undefined): number {
  const start = /\bd="M(-?[\d.]+)/.exec(element ?? '')?.[1];
  return start === undefined ? Number.NaN : Number(start);
}

/** Numbers that are none, or colours and addresses a strict policy would refuse, anywhere in the markup. */
export const unsound = (markup: string): string[] => markup.match(/NaN|Infinity|undefined|\bstyle="/g) ?? [];
