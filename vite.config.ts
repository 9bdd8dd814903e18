import { createReadStream, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** Folders of pdfjs-dist that it reads while it draws: fonts that a PDF need not carry, decoders of scans, code maps. */
const PDF_FOLDERS = ['cmaps', 'iccs', 'standard_fonts', 'wasm'];
const PDF_HOME = join(import.meta.dirname, 'node_modules/pdfjs-dist');
/** Parts of those folders that no plan needs: scripting and decoders for engines without WebAssembly. */
const PDF_NEEDLESS = /quickjs|nowasm/i;

const pdfFiles = (): string[] =>
  PDF_FOLDERS.flatMap((folder) =>
    readdirSync(join(PDF_HOME, folder))
      .filter((name) => !PDF_NEEDLESS.test(name))
      .map((name) => `${folder}/${name}`),
  );

/** Serves those folders under `pdfjs/`, and copies them into a built site. */
const pdfParts: Plugin = {
  name: 'pdf-parts',
  configureServer(server) {
    const known = new Set(pdfFiles());
    server.middlewares.use('/pdfjs', (request, response, next) => {
      const file = (request.url ?? '').replace(/^\//, '').replace(/\?.*$/, '');
      if (!known.has(file)) return next();
      const wasm = file.endsWith('.wasm');
      response.setHeader('Content-Type', wasm ? 'application/wasm' : 'application/octet-stream');
      createReadStream(join(PDF_HOME, file)).pipe(response);
    });
  },
  generateBundle() {
    for (const file of pdfFiles())
      this.emitFile({
        type: 'asset',
        fileName: `pdfjs/${file}`,
        source: readFileSync(join(PDF_HOME, file)),
      });
  },
};

/** Adds the licence of the PDF reader to those of the packages: a worker alone holds it, and Vite lists what pages hold. */
const readerLicence: Plugin = {
  name: 'reader-licence',
  apply: 'build',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    handler(_options, bundle) {
      const list = bundle['LICENCES.md'];
      if (list?.type !== 'asset') throw new Error('there is no list of licences to add to');
      const { name, version, license } = JSON.parse(
        readFileSync(join(PDF_HOME, 'package.json'), 'utf8'),
      );
      const text = readFileSync(join(PDF_HOME, 'LICENSE'), 'utf8').trim();
      list.source = `${list.source}\n## ${name} - ${version} (${license})\n\n${text}\n`;
    },
  },
};

/** What a built page may do: nothing leaves it. WebAssembly decodes scans in PDFs; panels set styles on elements. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' blob: data:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** Puts the policy into the built page; the development server needs scripts in the page itself. */
const policy: Plugin = {
  name: 'policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

/** Has the browser fetch the program along with the page: the page's own script only asks for it once it runs. */
const early: Plugin = {
  name: 'early',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(_html, { bundle = {} }) {
      const files = new Set<string>();
      const add = (name: string) => {
        const chunk = bundle[name];
        if (chunk?.type !== 'chunk' || files.has(name)) return;
        files.add(name);
        chunk.imports.forEach(add);
      };
      for (const [name, chunk] of Object.entries(bundle))
        if (chunk.type === 'chunk' && chunk.facadeModuleId?.endsWith('/src/app/main.tsx'))
          add(name);
      return [...files].map((file) => ({
        tag: 'link',
        attrs: { rel: 'modulepreload', crossorigin: true, href: `./${file}` },
        injectTo: 'head',
      }));
    },
  },
};

export default defineConfig({
  base: './',
  plugins: [react(), pdfParts, readerLicence, policy, early],
  worker: { format: 'es' },
  // One style sheet, which the page names itself, so that it can be painted before the program is there.
  build: { target: 'es2022', cssCodeSplit: false, license: { fileName: 'LICENCES.md' } },
  test: {
    environment: 'node',
    include: ['tests/{unit,tidy}/**/*.test.ts'],
    testTimeout: 60_000,
  },
});
