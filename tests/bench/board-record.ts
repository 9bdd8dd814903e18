/** Installs what notes the frames in a page: when each begins, which is with its input, and whether it had one. */
export const recorder = () => {
  const times: number[] = [];
  const inputs: boolean[] = [];
  let input = 0;
  let on = false;
  let long = 0;
  for (const type of ['pointermove', 'wheel'])
    addEventListener(
      type,
      () => {
        input ||= performance.now();
      },
      { capture: true, passive: true },
    );
  new PerformanceObserver((list) => {
    if (on) long += list.getEntries().length;
  }).observe({ type: 'long-animation-frame' });
  const tick = () => {
    if (!on) return;
    times.push(input || performance.now());
    inputs.push(input > 0);
    input = 0;
    requestAnimationFrame(tick);
  };
  Object.assign(window, {
    frames: {
      start() {
        times.length = 0;
        inputs.length = 0;
        long = 0;
        // What came before, to get here, is no input of the first frame.
        input = 0;
        on = true;
        performance.mark('bench-start');
        requestAnimationFrame(tick);
      },
      stop() {
        on = false;
        performance.mark('bench-end');
        return { times, inputs, long };
      },
    },
  });
};

/**
 * Installs what notes when the drawing is sharp: painted pixel by pixel, and no edge of it left bare. Until then it is
 * a picture that was made for another view.
 */
export const sharpness = () => {
  let input = 0;
  let waits = false;
  const took: number[] = [];
  for (const type of ['pointermove', 'wheel'])
    addEventListener(
      type,
      () => {
        input = performance.now();
        waits = true;
      },
      { capture: true, passive: true },
    );
  const draw = CanvasRenderingContext2D.prototype.drawImage as (...args: unknown[]) => void;
  CanvasRenderingContext2D.prototype.drawImage = function (
    this: CanvasRenderingContext2D,
    ...args: unknown[]
  ) {
    draw.apply(this, args);
    const [image, x, y, width, height] = args as [unknown, number, number, number, number];
    const { canvas } = this;
    if (!waits || args.length !== 5 || !(image instanceof ImageBitmap) || !canvas.isConnected)
      return;
    const { clientWidth, clientHeight } = canvas;
    const ratio = canvas.width / clientWidth;
    const own = Math.abs(width * ratio - image.width) < 0.01;
    if (!own || x > 0 || y > 0 || x + width < clientWidth || y + height < clientHeight) return;
    waits = false;
    const last = input;
    // It is on the screen when the next frame begins; a later move makes it another picture.
    requestAnimationFrame(() => {
      if (last === input) took.push(performance.now() - last);
    });
  };
  Object.assign(window, { sharp: () => took.splice(0).at(-1) ?? null });
};
