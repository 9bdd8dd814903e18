import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { openJob } from './job.ts';

test('a kept job that cannot be read is handed over as a file before another takes its place', async ({
  page,
}) => {
  await openJob(page);
  await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((done, failed) => {
      const open = indexedDB.open('dropwise');
      open.onsuccess = () => done(open.result);
      open.onerror = () => failed(open.error);
    });
    const stroke = db.transaction(['snapshots', 'steps'], 'readwrite');
    stroke.objectStore('steps').clear();
    const all = stroke.objectStore('snapshots').getAll();
    all.onsuccess = () => {
      for (const record of all.result)
        stroke.objectStore('snapshots').put({ ...record, text: `${record.text} torn` });
    };
    await new Promise((done) => {
      stroke.oncomplete = done;
    });
    db.close();
  });
  const handed = page.waitForEvent('download');
  await page.reload();
  const download = await handed;
  expect(download.suggestedFilename()).toBe('unread-job.json');
  const { snapshots } = JSON.parse(readFileSync(await download.path(), 'utf8'));
  expect(snapshots[0].text).toContain('torn');
  await expect(page.getByText('cannot be read')).toBeVisible();
});
