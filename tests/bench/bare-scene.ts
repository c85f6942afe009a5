/** A bare three.js scene: as many triangles as the program draws, in a picture of the same size, drawn anew at every key. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import type * as Three from 'three';
import { installGlCounter, installRedrawRecorder } from './gl-recorder.ts';

export interface BareScene {
  readonly triangles: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Never asked for over a network: the browser is handed the files of three's package under this address. */
const ORIGIN = 'http://localhost';
const THREE_FOLDER = dirname(createRequire(import.meta.url).resolve('three'));

/** Runs in the page: eight tubes side by side, turned a little at every key. */
async function drawBareScene({ triangles, widthPx, heightPx }: BareScene): Promise<void> {
  const modulePath = '/three.module.js';
  const three = (await import(modulePath)) as typeof Three;
  const renderer = new three.WebGLRenderer({ antialias: false, alpha: true });
  renderer.setSize(widthPx, heightPx);
  document.body.append(renderer.domElement);
  const tubes = 8;
  const around = 24;
  const along = Math.ceil(triangles / tubes / around / 2);
  const material = new three.MeshBasicMaterial({ vertexColors: true, side: three.DoubleSide });
  const scene = new three.Scene();
  for (let tube = 0; tube < tubes; tube += 1) {
    const geometry = new three.CylinderGeometry(0.05, 0.05, 1.8, around, along, true);
    const corners = geometry.getAttribute('position').count;
    geometry.setAttribute('color', new three.BufferAttribute(new Float32Array(3 * corners).fill(0.6), 3));
    const mesh = new three.Mesh(geometry, material);
    mesh.position.x = (tube - (tubes - 1) / 2) * 0.2;
    scene.add(mesh);
  }
  const wide = widthPx / heightPx;
  const camera = new three.OrthographicCamera(-wide, wide, 1, -1, -10, 10);
  const draw = () => renderer.render(scene, camera);
  draw();
  addEventListener('keydown', () => {
    scene.rotation.x += 0.05;
    requestAnimationFrame(draw);
  });
}

/** Opens it in a page of its own, with the recorders of the program's picture in place. */
export async function openBareScene(browser: Browser, bare: BareScene): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1366, height: 768 } });
  await page.route(`${ORIGIN}/**`, async (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name === '') return route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>bare</title>' });
    const body = readFileSync(join(THREE_FOLDER, name.replaceAll('/', '')), 'utf8');
    return route.fulfill({ contentType: 'text/javascript', body });
  });
  await page.addInitScript(installGlCounter);
  await page.addInitScript(installRedrawRecorder);
  await page.goto(`${ORIGIN}/`);
  await page.evaluate(drawBareScene, bare);
  return page;
}
