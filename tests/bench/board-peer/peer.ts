import Konva from 'konva';
import { paperPixels } from '../../../src/board/scene.ts';
import type { Mark, Style } from '../../../src/drawing/display.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { PALETTES } from '../../../src/drawing/palette.ts';
import { planMarks } from '../../../src/drawing/plan-marks.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { readPlan } from '../../../src/plan/codec.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';

/**
 * The same drawing as the board's with one node of the canvas library for each thing, moved by the library's own means:
 * the stage for pan and zoom, `draggable` for a device. What the board is measured against.
 */
const palette = PALETTES.light;
Konva.pixelRatio = 1;

/** Text and symbols keep their size; `mm` is one paper mm in the unit that the node lies in. */
function look(style: Style, mm: number): Konva.ShapeConfig {
  return {
    ...(style.fill ? { fill: palette[style.fill] } : {}),
    ...(style.stroke
      ? { stroke: palette[style.stroke], strokeWidth: (style.width ?? 0.25) * mm }
      : {}),
    ...(style.dash ? { dash: style.dash.map((d) => d * mm) } : {}),
    ...(style.opacity === undefined ? {} : { opacity: style.opacity }),
  };
}

function nodeOf(mark: Mark, mm: number): Konva.Group | Konva.Shape | null {
  switch (mark.op) {
    case 'line':
      return new Konva.Line({
        points: mark.points.flat(),
        closed: mark.closed ?? false,
        ...look(mark.style, mm),
      });
    case 'circle':
      return new Konva.Circle({
        x: mark.at[0],
        y: mark.at[1],
        radius: mark.radius,
        ...look(mark.style, mm),
      });
    case 'text': {
      const fontSize = mark.size * mm;
      const width = mark.align === 'centre' ? fontSize * mark.text.length : undefined;
      return new Konva.Text({
        x: mark.at[0] - (width ?? 0) / 2,
        y: mark.at[1] - fontSize / 2,
        text: mark.text,
        fontSize,
        fill: palette[mark.ink],
        rotation: mark.turn ?? 0,
        ...(width ? { width, align: 'center' } : {}),
      });
    }
    case 'symbol': {
      const group = new Konva.Group({
        x: mark.at[0],
        y: mark.at[1],
        rotation: mark.turn ?? 0,
        scaleX: mm,
        scaleY: mm,
        name: mark.row ?? '',
        draggable: mark.row !== undefined,
      });
      for (const part of mark.marks) add(group, nodeOf(part, 1));
      return group;
    }
    case 'group': {
      const group = new Konva.Group({
        x: mark.at[0],
        y: mark.at[1],
        scaleX: mark.scale,
        scaleY: mark.scale,
      });
      for (const part of mark.marks) add(group, nodeOf(part, mm / mark.scale));
      return group;
    }
    case 'picture':
      return null;
  }
}

function add(to: Konva.Group | Konva.Layer, node: Konva.Group | Konva.Shape | null): void {
  if (node) to.add(node);
}

const read = readPlan(await (await fetch('plan.json')).text(), new Set(kinds.keys()));
if (!read.ok) throw new Error('the plan cannot be read');
const { plan } = read.value;
const points = [...plan.tables.walls.values()].flatMap(({ a, b }) => [a, b]);
const right = Math.max(...points.map(([x]) => x));
const bottom = Math.max(...points.map(([, y]) => y));
const scale = Math.min((innerWidth - 40) / right, (innerHeight - 40) / bottom);
const mm = paperPixels(scale) / scale;

const stage = new Konva.Stage({
  container: 'host',
  width: innerWidth,
  height: innerHeight,
  x: 20,
  y: 20,
  scaleX: scale,
  scaleY: scale,
});
const layer = new Konva.Layer();
const drawing = planMarks(plan, createSurveyor(kinds)(plan), {
  level: [...plan.tables.levels.keys()][0]!,
  scale: 1 / mm,
  kinds,
  measure: fontMeasure,
  groups: new Set([
    'zones',
    'keepouts',
    'walls',
    'pathways',
    'ways',
    'leaders',
    'outlets',
    'devices',
    'closets',
  ]),
  spread: true,
  keep: true,
  notes: false,
});
for (const { marks } of drawing.layers) for (const mark of marks) add(layer, nodeOf(mark, mm));
stage.add(layer);

let held: { x: number; y: number } | null = null;
const content = stage.content;
content.addEventListener('pointerdown', (event) => {
  if (event.button !== 1) return;
  event.preventDefault();
  held = { x: event.clientX, y: event.clientY };
});
content.addEventListener('pointermove', (event) => {
  if (!held) return;
  stage.position({ x: stage.x() + event.clientX - held.x, y: stage.y() + event.clientY - held.y });
  held = { x: event.clientX, y: event.clientY };
});
content.addEventListener('pointerup', () => {
  held = null;
});
content.addEventListener('wheel', (event) => {
  event.preventDefault();
  const factor = Math.exp(-event.deltaY * 0.0017);
  const { x, y } = stage.position();
  stage.scale({ x: stage.scaleX() * factor, y: stage.scaleY() * factor });
  stage.position({
    x: event.clientX - (event.clientX - x) * factor,
    y: event.clientY - (event.clientY - y) * factor,
  });
});
window.addEventListener('keydown', ({ key }) => {
  if (key !== 'Home') return;
  stage.scale({ x: scale, y: scale });
  stage.position({ x: 20, y: 20 });
});
const device = layer.findOne<Konva.Group>('.devices/D1');
document.body.dataset.grip = JSON.stringify(device?.getAbsolutePosition() ?? null);
document.body.dataset.nodes = String(layer.find(() => true).length);
