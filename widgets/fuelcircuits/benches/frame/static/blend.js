// The table of a page: its numbers unpacked, and blended between its places, as table.py does and says.

const FULL = 65534;

export async function unpack(text) {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  const all = new Uint8Array(await new Response(stream).arrayBuffer());
  const length = new DataView(all.buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(all.subarray(4, 4 + length)));
  const planes = all.subarray(4 + length), half = planes.length / 2;
  let at = 0;
  // Numbers stand shape by shape, leaf by leaf, point by point.
  for (const side of [head.shown, head.said]) {
    let scale = 0;
    side.leaves = side.which.map(() => []);
    side.shapes.forEach((shape, number) => {
      const points = side.which.flatMap((which, point) => (which === number ? [point] : []));
      for (let leaf = 0; leaf < leavesIn(shape); leaf += 1, scale += 1) {
        const [count, low, span] = side.scales[scale];
        for (const point of points) {
          const list = new Float64Array(count);
          for (let i = 0; i < count; i += 1, at += 1) {
            const step = planes[at] * 256 + planes[half + at];
            list[i] = step > FULL ? NaN : low + (step / FULL) * span;
          }
          side.leaves[point].push(list);
        }
      }
    });
  }
  return head;
}

function leavesIn(shape) {
  if (shape === null || typeof shape !== "object") return 0;
  if ("#" in shape || "~" in shape) return 1;
  return Object.values(shape).reduce((sum, part) => sum + leavesIn(part), 0);
}

export function nearest(places, value) {
  if (typeof value !== "number") return places.indexOf(value);
  const off = places.map((place) => Math.abs(place - value));
  return off.indexOf(Math.min(...off));
}

// The `reach` places to each side of a value, each with Lagrange's weight.
export function around({ places, blends }, value, reach) {
  if (!blends || reach === 0 || places.includes(value)) return [[nearest(places, value), 1]];
  const high = places.findIndex((place) => place >= value);
  const near = places.map((place, index) => [index, place]).slice(Math.max(high - reach, 0), high + reach);
  return near.map(([index, own]) => [index, near.reduce((product, [, other]) => (other === own ? product : (product * (value - other)) / (own - other)), 1)]);
}

function cornersOf(axes, values, reach) {
  let corners = [[0, 1]];
  for (const axis of axes) {
    const sides = around(axis, values[axis.name], reach);
    corners = corners.flatMap(([point, weight]) => sides.map(([place, part]) => [point * axis.places.length + place, weight * part]));
  }
  return corners;
}

// Put a shape and its numbers together.
export function join(shape, next) {
  if (shape === null || typeof shape !== "object") return shape;
  if (Array.isArray(shape)) return shape.map((part) => join(part, next));
  if ("#" in shape) {
    const list = Array.from(next(), (each) => (Number.isNaN(each) ? null : each));
    return shape["#"] ? list : list[0];
  }
  if ("~" in shape) {
    const said = next();
    let i = 0;
    return shape["~"].replace(/\{(\d)\}/g, (_, digits) => said[i++].toFixed(digits).replace(/^-(0(\.0*)?)$/, "$1"));
  }
  return Object.fromEntries(Object.entries(shape).map(([name, part]) => [name, join(part, next)]));
}

// The cell that settings lie in; a place belongs to the one after it.
function cellOf(axes, values) {
  return axes.reduce((number, { name, places, blends }) => {
    const cells = places.length - (blends ? 1 : 0);
    const index = blends ? Math.min(Math.max(places.filter((place) => place <= values[name]).length - 1, 0), cells - 1) : nearest(places, values[name]);
    return number * cells + index;
  }, 0);
}

// The widest set of corners that are of one kind, or none.
export function alike(table, values) {
  if (cornersOf(table.axes, values, 2).length > 1 && table.sound[cellOf(table.axes, values)] === "0") return undefined;
  const kind = ([point]) => `${table.shown.which[point]} ${table.said.which[point]}`;
  return [2, 1].map((reach) => cornersOf(table.axes, values, reach)).find((corners) => corners.every((corner) => kind(corner) === kind(corners[0])));
}

export function blend(side, corners) {
  const one = corners[0][0];
  const blended = side.leaves[one].map((list, leaf) => list.map((_, i) => corners.reduce((sum, [point, weight]) => sum + weight * side.leaves[point][leaf][i], 0)));
  let leaf = 0;
  return join(side.shapes[side.which[one]], () => blended[leaf++]);
}
