// SPDX-License-Identifier: MIT
// Bodies to turn about: drawn when something has changed, and only then.
import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Plane,
  Scene,
  Vector3,
  WebGLRenderer,
} from 'three';

export interface PartsScene {
  planes: { name: string; width_mm: number; height_mm: number; z_mm: number }[];
  pupil: { z_mm: number; radius_mm: number };
  pieces: { name: string; count: number; size_mm: [number, number, number]; points: string; triangles: string }[];
}

export const tints = ['#b9805a', '#7d9a78', '#8893b0', '#b5a25c', '#a77b92', '#6f9aa3', '#9b8f80', '#87a05a'];
export const planeTints = ['#1461a8', '#c4421a', '#6b6f5a'];

function bytes(base64: string): ArrayBuffer {
  const text = atob(base64);
  const out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) out[i] = text.charCodeAt(i);
  return out.buffer;
}

export class Model {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(30, 1, 1, 4000);
  private readonly pieces: Group[] = [];
  private readonly cut = new Plane(new Vector3(-1, 0, 0), 1e4);
  private around = 2.5; // radians about the camera's upright
  private above = 0.35;
  private far = 420;
  private middle = new Vector3();
  private drawnApart = 0;
  private asked = 0;

  constructor(canvas: HTMLCanvasElement, parts: PartsScene) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.localClippingEnabled = true;
    this.scene.add(new AmbientLight(0xffffff, 1.6));
    for (const [x, y, z, strength] of [[1, 2, 3, 1.6], [-2, 1, -2, 0.8]]) {
      const lamp = new DirectionalLight(0xffffff, strength);
      lamp.position.set(x, y, z);
      this.scene.add(lamp);
    }
    parts.pieces.forEach((piece, i) => {
      const body = new BufferGeometry();
      body.setAttribute('position', new BufferAttribute(new Float32Array(bytes(piece.points)), 3));
      body.setIndex(new BufferAttribute(new Uint32Array(bytes(piece.triangles)), 1));
      const faceted = body.toNonIndexed();
      faceted.computeVertexNormals();
      const material = new MeshLambertMaterial({ color: new Color(tints[i % tints.length]), side: DoubleSide, clippingPlanes: [this.cut] });
      const group = new Group();
      group.add(new Mesh(faceted, material));
      // Edges as a drawing has them.
      group.add(new LineSegments(new EdgesGeometry(faceted, 25), new LineBasicMaterial({ color: '#3a322a', clippingPlanes: [this.cut] })));
      this.scene.add(group);
      this.pieces.push(group);
    });
    parts.planes.forEach((p, i) => {
      const [w, h, z] = [p.width_mm / 2, p.height_mm / 2, p.z_mm];
      this.lines([[-w, -h, z], [w, -h, z], [w, -h, z], [w, h, z], [w, h, z], [-w, h, z], [-w, h, z], [-w, -h, z]], planeTints[Math.min(i, 2)]);
    });
    // From the pupil's edge to the new picture's corners.
    const film = parts.planes[1];
    const r = parts.pupil.radius_mm;
    const cone: number[][] = [];
    for (const [x, y] of [[-1, -1], [1, -1], [1, 1], [-1, 1]]) {
      cone.push([(x * r) / Math.SQRT2, (y * r) / Math.SQRT2, parts.pupil.z_mm], [(x * film.width_mm) / 2, (y * film.height_mm) / 2, film.z_mm]);
    }
    for (let k = 0; k < 48; ++k) {
      for (const a of [k, k + 1]) cone.push([r * Math.cos((a * Math.PI) / 24), r * Math.sin((a * Math.PI) / 24), parts.pupil.z_mm]);
    }
    this.lines(cone, '#b08a1e');
    this.middle.set(0, 0, film.z_mm / 2 - 10);
    this.far = Math.max(300, 2.9 * Math.hypot(film.width_mm, film.height_mm));
  }

  private lines(points: number[][], colour: string) {
    const body = new BufferGeometry();
    body.setAttribute('position', new BufferAttribute(new Float32Array(points.flat()), 3));
    this.scene.add(new LineSegments(body, new LineBasicMaterial({ color: colour })));
  }

  turn(around: number, above: number) {
    this.around += around;
    this.above = Math.min(1.5, Math.max(-1.5, this.above + above));
    this.draw();
  }
  nearer(times: number) {
    this.far = Math.min(2000, Math.max(60, this.far / times));
    this.draw();
  }
  // Pieces drawn apart along the light: 0 where they sit, 1 well apart.
  apart(share: number) {
    const gap = 22; // mm between neighbours at most
    this.pieces.forEach((piece, i) => (piece.position.z = share * gap * i));
    this.drawnApart = share * gap * this.pieces.length;
    this.draw();
  }
  // Everything right of the plane x is cut away.
  cutAt(x: number) {
    this.cut.constant = x;
    this.draw();
  }

  draw() {
    if (this.asked) return;
    this.asked = requestAnimationFrame(() => {
      this.asked = 0;
      const canvas = this.renderer.domElement;
      const [w, h] = [canvas.clientWidth, canvas.clientHeight];
      if (w === 0 || h === 0) return;
      this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
      this.renderer.setSize(w, h, false);
      this.camera.aspect = w / h;
      this.camera.updateProjectionMatrix();
      const far = this.far + 1.2 * this.drawnApart;
      const flat = Math.cos(this.above) * far;
      const at = this.middle.clone();
      at.z += this.drawnApart / 2;
      this.camera.position.set(at.x - flat * Math.sin(this.around), at.y + far * Math.sin(this.above), at.z - flat * Math.cos(this.around));
      this.camera.lookAt(at);
      this.renderer.render(this.scene, this.camera);
    });
  }

  close() {
    cancelAnimationFrame(this.asked);
    this.renderer.dispose();
  }
}
