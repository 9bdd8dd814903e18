/** The faces that the drawing is lettered in, as `app/fonts.css` has them for the page; a worker loads its own. */
const FACES = [
  ['Atkinson Hyperlegible Next', 400, 'AtkinsonHyperlegibleNext_400Regular.ttf'],
  ['Atkinson Hyperlegible Next', 700, 'AtkinsonHyperlegibleNext_700Bold.ttf'],
  ['Atkinson Hyperlegible Mono', 400, 'AtkinsonHyperlegibleMono_400Regular.ttf'],
  ['Atkinson Hyperlegible Mono', 700, 'AtkinsonHyperlegibleMono_700Bold.ttf'],
] as const;

/** What a worker has in place of the document's fonts. */
interface Lettering {
  readonly fonts?: { add(face: FontFace): void };
}

/** Loads the faces into a worker. Where that fails, letters are of the system's faces, as on a page without fonts. */
export async function loadFaces(folder: string): Promise<void> {
  const { fonts } = globalThis as unknown as Lettering;
  if (!fonts) return;
  await Promise.allSettled(
    FACES.map(async ([family, weight, file]) => {
      const face = new FontFace(family, `url("${new URL(file, folder)}")`, {
        weight: String(weight),
      });
      fonts.add(await face.load());
    }),
  );
}
