// The rules by which numbers place a drawing, as a part carries them in data-set:
//   transform = rotate([droop] 120 80); opacity = [shut]
// An attribute, or `text` for the words of the part, and what it is set to.

export function rulesIn(text) {
  return text.split(";").filter((rule) => rule.trim()).map((rule) => {
    const sign = rule.indexOf("=");
    return { name: rule.slice(0, sign).trim(), text: rule.slice(sign + 1).trim() };
  });
}

// The text with its numbers in, to a thousandth.
export const filled = (text, numbers) => text.replace(/\[(\w+)\]/g, (_, key) => +numbers[key].toFixed(3));
