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
  LineDashedMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  PerspectiveCamera,
  Plane,
  Points,
  PointsMaterial,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
  type Object3D,
} from 'three';
import { numbers, type Face } from './faces';

export interface PartsScene {
  planes: { name: string; width_mm: number; height_mm: number; z_mm: number }[];
  pupil: { z_mm: number; radius_mm: number };
  pieces: { name: string; count: number; size_mm: [number, number, number]; points: string; triangles: string }[];
  in_the_way?: { name: string; comes_out: boolean; low_mm: Place; high_mm: Place }[];
}
export type Place = [number, number, number];
// What stands under a place of the picture: a piece's place, as it sits in the camera.
export interface Hit {
  of: string;
  place: Place;
  corner: boolean; // a corner of the body, and not just anywhere on it
  normal: Place;
}

export const tints = ['#b9805a', '#7d9a78', '#8893b0', '#b5a25c', '#a77b92', '#6f9aa3', '#9b8f80', '#87a05a'];
export const planeTints = ['#1461a8', '#c4421a', '#6b6f5a'];
export const wayTints = ['#a3221b', '#7d5400', '#8a3d96', '#0d5c63', '#2b6132'];

interface Piece {
  name: string;
  group: Group;
  body: Mesh;
  edges: LineSegments<EdgesGeometry, LineBasicMaterial>;
}

export class Model {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(30, 1, 1, 4000);
  private readonly pieces: Piece[] = [];
  private readonly cut = new Plane(new Vector3(-1, 0, 0), 1e4);
  private readonly marks = new Group(); // faces and places that are measured between
  private readonly ways = new Group(); // of light that leaks
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
      const form = new BufferGeometry();
      form.setAttribute('position', new BufferAttribute(new Float32Array(numbers(piece.points)), 3));
      form.setIndex(new BufferAttribute(new Uint32Array(numbers(piece.triangles)), 1));
      const faceted = form.toNonIndexed();
      faceted.computeVertexNormals();
      const group = new Group();
      const body = new Mesh(faceted, new MeshLambertMaterial({ color: new Color(tints[i % tints.length]), side: DoubleSide, clippingPlanes: [this.cut] }));
      // Edges as a drawing has them.
      const edges = new LineSegments(new EdgesGeometry(faceted, 25), new LineBasicMaterial({ color: '#3a322a', clippingPlanes: [this.cut] }));
      group.add(body, edges);
      this.scene.add(group);
      this.pieces.push({ name: piece.name, group, body, edges });
    });
    parts.planes.forEach((p, i) => {
      const [w, h, z] = [p.width_mm / 2, p.height_mm / 2, p.z_mm];
      this.lines(this.scene, [[-w, -h, z], [w, -h, z], [w, -h, z], [w, h, z], [w, h, z], [-w, h, z], [-w, h, z], [-w, -h, z]], planeTints[Math.min(i, 2)]);
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
    this.lines(this.scene, cone, '#b08a1e');
    // What stands in the chamber: in red what the insert is notched round, dotted what comes out.
    for (const { comes_out, low_mm: a, high_mm: b } of parts.in_the_way ?? []) {
      const corner = (i: number) => [i & 1 ? b[0] : a[0], i & 2 ? b[1] : a[1], i & 4 ? b[2] : a[2]];
      const edges: number[][] = [];
      for (let i = 0; i < 8; ++i) {
        for (const bit of [1, 2, 4]) if (!(i & bit)) edges.push(corner(i), corner(i | bit));
      }
      this.lines(this.scene, edges, comes_out ? '#7a7f86' : '#c4421a', true, comes_out);
    }
    this.scene.add(this.marks, this.ways);
    this.middle.set(0, 0, film.z_mm / 2 - 10);
    const largest = Math.max(0, ...parts.pieces.map((x) => Math.hypot(...x.size_mm)));
    this.far = Math.max(300, 2.9 * Math.hypot(film.width_mm, film.height_mm), 2.5 * largest);
  }

  private lines(into: Object3D, points: number[][], colour: string, front = false, dotted = false) {
    const form = new BufferGeometry();
    form.setAttribute('position', new BufferAttribute(new Float32Array(points.flat()), 3));
    const look = { color: colour, depthTest: !front };
    const drawn = new LineSegments(form, dotted ? new LineDashedMaterial({ ...look, dashSize: 1.5, gapSize: 1.5 }) : new LineBasicMaterial(look));
    if (dotted) drawn.computeLineDistances();
    drawn.renderOrder = front ? 2 : 0;
    into.add(drawn);
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
  // Moves what stands in the middle, by shares of the picture's height.
  shift(right: number, up: number) {
    const high = 2 * this.far * Math.tan((this.camera.fov * Math.PI) / 360);
    const sideways = new Vector3(1, 0, 0).applyQuaternion(this.camera.quaternion);
    const upwards = new Vector3(0, 1, 0).applyQuaternion(this.camera.quaternion);
    this.middle.addScaledVector(sideways, right * high).addScaledVector(upwards, up * high);
    this.draw();
  }
  // Pieces drawn apart along the light: 0 where they sit, 1 well apart.
  apart(share: number) {
    const gap = 22; // mm between neighbours at most
    this.pieces.forEach((piece, i) => (piece.group.position.z = share * gap * i));
    this.drawnApart = share * gap * this.pieces.length;
    this.draw();
  }
  // Cuts away all that lies beyond `at` along an axis.
  cutAt(axis: 0 | 1 | 2, at: number) {
    this.cut.normal.set(axis === 0 ? -1 : 0, axis === 1 ? -1 : 0, axis === 2 ? -1 : 0);
    this.cut.constant = at;
    this.draw();
  }
  // Bodies as solids, or their edges alone in the colour of the page's ink.
  shade(solid: boolean, ink: string) {
    for (const p of this.pieces) {
      p.body.visible = solid;
      p.edges.material.color.set(solid ? '#3a322a' : ink);
    }
    this.draw();
  }

  // Makes faces and places stand out, and draws a line between two places.
  mark(faces: Face[], hits: Hit[]) {
    this.marks.clear();
    const apart = (of: string) => this.pieces.find((p) => p.name === of)?.group.position.z ?? 0;
    const places = hits.map(({ of, place: [x, y, z] }) => [x, y, z + apart(of)]);
    faces.forEach((face, i) => {
      const colour = ['#c4421a', '#1461a8'][i % 2];
      if (face.outline) {
        const pairs: number[][] = [];
        for (let k = 0; k < face.corners.length; k += 3) pairs.push(face.corners.slice(k, k + 3));
        this.lines(this.marks, pairs, colour, true);
        return;
      }
      const form = new BufferGeometry();
      form.setAttribute('position', new BufferAttribute(new Float32Array(face.corners), 3));
      const sheet = new Mesh(form, new MeshBasicMaterial({ color: colour, side: DoubleSide, transparent: true, opacity: 0.55, depthTest: false }));
      sheet.renderOrder = 1;
      sheet.position.z = apart(face.of);
      this.marks.add(sheet);
    });
    if (places.length > 0) {
      const form = new BufferGeometry();
      form.setAttribute('position', new BufferAttribute(new Float32Array(places.flat()), 3));
      const dots = new Points(form, new PointsMaterial({ color: '#c4421a', size: 9, sizeAttenuation: false, depthTest: false }));
      dots.renderOrder = 3;
      this.marks.add(dots);
      if (places.length === 2) this.lines(this.marks, places, '#c4421a', true);
    }
    this.draw();
  }

  // Ways of light from outside to the film, each as its corners.
  lightWays(list: number[][][]) {
    this.ways.clear();
    list.forEach((points, i) => {
      const pairs: number[][] = [];
      for (let k = 0; k + 1 < points.length; ++k) pairs.push(points[k], points[k + 1]);
      this.lines(this.ways, pairs, wayTints[i % wayTints.length], true);
    });
    this.draw();
  }

  // What stands at a place of the picture, in pixels from its upper left corner.
  at(x: number, y: number): Hit | null {
    const canvas = this.renderer.domElement;
    const [w, h] = [canvas.clientWidth, canvas.clientHeight];
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((2 * x) / w - 1, 1 - (2 * y) / h), this.camera);
    // Also those that only their edges are drawn of.
    for (const hit of ray.intersectObjects(this.pieces.map((p) => p.body), false)) {
      if (this.cut.distanceToPoint(hit.point) < 0) continue;
      const piece = this.pieces.find((p) => p.body === hit.object)!;
      const form = piece.body.geometry.getAttribute('position');
      const apart = piece.group.position.z;
      let place = hit.point.clone();
      let corner = false;
      for (const i of [hit.face!.a, hit.face!.b, hit.face!.c]) {
        const p = new Vector3(form.getX(i), form.getY(i), form.getZ(i) + apart);
        const seen = p.clone().project(this.camera);
        if (Math.hypot(((seen.x + 1) / 2) * w - x, ((1 - seen.y) / 2) * h - y) < 9) {
          place = p;
          corner = true;
        }
      }
      const n = hit.face!.normal;
      return { of: piece.name, place: [place.x, place.y, place.z - apart], corner, normal: [n.x, n.y, n.z] };
    }
    return null;
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
      this.camera.updateMatrixWorld();
      this.renderer.render(this.scene, this.camera);
    });
  }

  close() {
    cancelAnimationFrame(this.asked);
    this.renderer.dispose();
  }
}
