// SPDX-License-Identifier: MIT
// Measures the pages that look.py has put into frames of this one, and writes what is wrong as JSON.
"use strict";

// How far boxes may reach into one another: a hair, for rounding and for the air that a line has above its letters.
const ACROSS = 1.5, DOWN = 3;

// The pieces of text that are seen, each with its box.
function texts(page) {
    const found = [];
    const walker = page.createTreeWalker(page.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const parent = node.parentElement;
        if (!node.data.trim() || parent.closest(".heard, title, pattern")) continue;
        const range = page.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects())
            if (box.width > 0) found.push({ text: node.data.trim(), parent, box });
    }
    return found;
}

function overlap(a, b) {
    return Math.min(a.right, b.right) - Math.max(a.left, b.left) > ACROSS &&
        Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > DOWN;
}

function inside(box, frame) {
    return box.left >= frame.left - ACROSS && box.right <= frame.right + ACROSS && box.top >= frame.top - DOWN &&
        box.bottom <= frame.bottom + DOWN;
}

function measure(frame) {
    const page = frame.contentDocument, wrong = [];
    const paper = frame.dataset.paper === "yes";
    const root = page.documentElement;
    const say = (what) => wrong.push(what);
    if (root.scrollWidth > root.clientWidth) say(`is ${root.scrollWidth} wide`);
    for (const box of page.querySelectorAll(".scroll"))
        if (paper && box.scrollWidth > box.clientWidth + 1)
            say(`'${box.getAttribute("aria-label")}' is ${box.scrollWidth} wide, the paper ${box.clientWidth}`);
    for (const element of page.querySelectorAll("h1, h2, p, li, th, td, figcaption"))
        if (element.scrollWidth > element.clientWidth + 1 && element.clientWidth > 0 &&
            !element.querySelector(".marks"))
            say(`cut: '${element.textContent}'`);
    const seen = texts(page);
    seen.sort((a, b) => a.box.top - b.box.top);
    for (let i = 0; i < seen.length; i++) {
        const { box, parent, text } = seen[i];
        const picture = parent.closest("svg");
        if (picture && !inside(box, picture.getBoundingClientRect())) say(`out of its picture: '${text}'`);
        for (let k = i + 1; k < seen.length && seen[k].box.top < box.bottom; k++)
            if (overlap(box, seen[k].box)) say(`'${text}' lies on '${seen[k].text}'`);
    }
    return { name: frame.title, texts: seen.length, wrong };
}

addEventListener("load", () => {
    const result = [...document.querySelectorAll("iframe")].map(measure);
    const out = document.createElement("pre");
    out.id = "measured";
    out.textContent = JSON.stringify(result);
    document.body.append(out);
});
