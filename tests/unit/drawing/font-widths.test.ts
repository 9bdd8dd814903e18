import { describe, expect, it } from 'vitest';
import { FONT_WIDTHS } from '../../../src/drawing/font-widths.ts';
import { fitText, fontMeasure, hasLetter, wrapText } from '../../../src/drawing/measure.ts';
import { allWidths } from './make-font-widths.ts';

describe('text measure', () => {
  it('holds the advance widths of the fonts that are shipped', () => {
    expect(FONT_WIDTHS).toEqual(allWidths());
  });

  it('adds widths up in the unit of the size', () => {
    const one = fontMeasure.width('A', 10, 'sans', false);
    expect(fontMeasure.width('AA', 10, 'sans', false)).toBeCloseTo(2 * one, 10);
    expect(fontMeasure.width('A', 5, 'sans', false)).toBeCloseTo(one / 2, 10);
    expect(fontMeasure.width('', 5, 'sans', false)).toBe(0);
  });

  it('gives every character of the mono face one width', () => {
    const widths = [...'0O1lIWi.'].map((c) => fontMeasure.width(c, 1000, 'mono', true));
    expect(new Set(widths).size).toBe(1);
  });

  it('counts a character outside the fonts as the box that stands for it', () => {
    expect(fontMeasure.width('漢', 1000, 'sans', false)).toBe(FONT_WIDTHS.sans.missing);
    expect(fontMeasure.width('😀', 1000, 'sans', false)).toBe(FONT_WIDTHS.sans.missing);
  });

  it('breaks words into lines that fit, and leaves no word out', () => {
    const words = 'One unbroken cable from each jack to the closet, labelled at both ends';
    const lines = wrapText(fontMeasure, words, 20, 2);
    expect(lines.length).toBeGreaterThan(2);
    expect(lines.join(' ')).toBe(words);
    for (const line of lines)
      expect(fontMeasure.width(line, 2, 'sans', false)).toBeLessThanOrEqual(20);
  });

  it('breaks a word that is longer than a line, between its letters', () => {
    const word = `Ünder${'😀'.repeat(30)}${'W'.repeat(60)}`;
    const lines = wrapText(fontMeasure, `one ${word} two`, 20, 2);
    expect(lines.join('').replaceAll(' ', '')).toBe(`one${word}two`);
    for (const line of lines) {
      expect(fontMeasure.width(line, 2, 'sans', false)).toBeLessThanOrEqual(20);
      expect(line).not.toMatch(/\p{Surrogate}/u);
    }
  });

  it('cuts a text between its letters, and says which letters the fonts have', () => {
    expect(fitText(fontMeasure, '😀'.repeat(30), 20, 2)).not.toMatch(/\p{Surrogate}/u);
    for (const letter of 'Aé9°½€') expect(hasLetter(letter, 'sans')).toBe(true);
    for (const letter of ['😀', 'ש', '餐']) expect(hasLetter(letter, 'mono')).toBe(false);
    // What only joins others to one letter is no letter that could be missing.
    expect(hasLetter('\u200d', 'sans')).toBe(true);
  });

  it('cuts a text that does not fit and says so by its ellipsis', () => {
    const cut = fitText(fontMeasure, 'Receiving and dry storage', 15, 2.5);
    expect(cut.endsWith('…')).toBe(true);
    expect(fontMeasure.width(cut, 2.5, 'sans', false)).toBeLessThanOrEqual(15);
    expect(fitText(fontMeasure, 'Bar', 15, 2.5)).toBe('Bar');
  });
});
