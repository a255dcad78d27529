/** Parts are moved on the layout: with the pointer, with the arrow keys. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { describeDesk, drawn, eventually } from './desk.ts';
import { small } from './small-build.ts';

const at = (text: string): readonly string[] => (/M1: \{[^}]*at: \[([^\]]*)\]/s.exec(text)?.[1] ?? '').split(', ');
const firstM1 = (page: Page) => page.locator('.drawing [data-drag="parts.M1"][data-view="plan"]').first();

describeDesk('moving a part', (open) => {
  it('by pointer, in steps of 10 mm, as one step of undo; Escape puts it back', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    await drawn(page);
    const before = onDisk();
    const box = await firstM1(page).boundingBox();
    if (!box) throw new Error('M1 is not drawn');
    const drag = async (dx: number, dy: number): Promise<void> => {
      await page.mouse.move(box.x + 5, box.y + 5);
      await page.mouse.down();
      await page.mouse.move(box.x + 5 + dx / 2, box.y + 5 + dy / 2);
      await page.mouse.move(box.x + 5 + dx, box.y + 5 + dy);
      await page.locator('[data-ghost="parts.M1"]').waitFor();
    };
    await drag(30, 20);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await page.locator('[data-ghost]').count()).toBe(0);
    expect(onDisk()).toBe(before);
    await drag(30, 20);
    await page.mouse.up();
    await eventually(onDisk).not.toBe(before);
    const [x, y, z] = at(onDisk());
    expect((Number(x) - 1040) % 10).toBe(0);
    expect(Number(x)).toBeGreaterThan(1040);
    expect(Number(y)).toBeLessThan(-130);
    expect(z).toBe('262 mm ±10 estimate');
    // a drag is no click
    expect(await page.locator('#card').count()).toBe(0);
    await page.getByRole('button', { name: 'Undo place of M1' }).click();
    await eventually(onDisk).toBe(before);
  });

  it('by a finger, once its card is open; before, the finger scrolls', async () => {
    const { page, context, onDisk } = await open({ text: small, at: 'layout', hasTouch: true });
    await drawn(page);
    const before = onDisk();
    const finger = await context.newCDPSession(page);
    const drag = async (dx: number): Promise<void> => {
      const box = await firstM1(page).boundingBox();
      if (!box) throw new Error('M1 is not drawn');
      const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', by: number) => finger.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x: box.x + 6 + by, y: box.y + 6 }] });
      await touch('touchStart', 0);
      for (const share of [0.25, 0.5, 0.75, 1]) await touch('touchMove', dx * share);
      await touch('touchEnd', 0);
    };
    await drag(30);
    await page.waitForTimeout(600);
    expect(onDisk()).toBe(before);
    const box = await firstM1(page).boundingBox();
    await page.touchscreen.tap((box?.x ?? 0) + 6, (box?.y ?? 0) + 6);
    await page.locator('#card').waitFor();
    await drag(30);
    await eventually(onDisk).not.toBe(before);
    const [x, y] = at(onDisk());
    expect(Number(x)).toBeGreaterThan(1040);
    expect(y).toBe(at(before)[1]);
  });

  it('taken up with M: arrow keys by 10, 1 and 50 mm, Enter puts it down', async () => {
    const { page, onDisk } = await open({ text: small, at: 'layout' });
    await drawn(page);
    const before = onDisk();
    const subject = page.locator('.drawing [data-subject="parts.M1"]', { has: page.locator('[data-view="plan"]') }).or(page.locator('.drawing [data-drag="parts.M1"][data-view="plan"] [data-subject="parts.M1"]')).first();
    await subject.evaluate((element) => (element as unknown as { focus: () => void }).focus());
    await page.keyboard.press('m');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Control+ArrowUp');
    await page.keyboard.press('Enter');
    await eventually(() => at(onDisk())).toEqual(['1051', '-80', '262 mm ±10 estimate']);
    await page.getByRole('button', { name: 'Undo place of M1' }).click();
    await eventually(onDisk).toBe(before);
  });
});
