/*
 * Keeps the pages of barmap and what they showed of a book in the browser's own store, so that both work while the
 * service doesn't answer. The pages are kept whole by version: a page that is open goes on with the files it began with.
 */
"use strict";

const VERSION = "{{version}}";
const SITE = `barmap-site-${VERSION}`;
const DATA = "barmap-data";

/** Says in a kept answer when it was kept (ISO 8601). */
const KEPT = "X-Barmap-Kept";
/** What the service says to every page of how far it may go, kept pages too. */
const RULES = ["Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy", "Cross-Origin-Opener-Policy", "Cross-Origin-Resource-Policy"];

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== location.origin || url.pathname === "/sw.js" || url.pathname === "/site.json") return;
  const api = url.pathname.startsWith("/api/");
  if (request.method === "GET" && !api) event.respondWith(page(request, url));
  else if (request.method === "GET" && isKept(url)) event.respondWith(data(event, url));
  else if (request.method === "DELETE" && bookOnly(url)) event.respondWith(removed(request, bookOnly(url)));
});

/** All files of one version, or none of them. */
async function install() {
  const answer = await fetch("/site.json", { cache: "no-store" });
  const { version, files } = await answer.json();
  if (version !== VERSION) throw new Error("the pages changed while they were fetched");
  const rules = RULES.flatMap((name) => (answer.headers.has(name) ? [[name, answer.headers.get(name)]] : []));
  const cache = await caches.open(SITE);
  await Promise.all(
    Object.entries(files).map(([path, { type, text }]) => cache.put(path, new Response(text, { headers: [["Content-Type", type], ["Cache-Control", "no-cache"], ...rules] }))),
  );
}

/** Only now no page uses an older version any more. */
async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("barmap-site-") && name !== SITE).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** The files of this version; what it hasn't is the service's to answer. */
async function page(request, url) {
  const cache = await caches.open(SITE);
  return (await cache.match(url.pathname)) ?? fetch(request);
}

/** Events are for now only, and a packed book would be kept twice. */
function isKept(url) {
  return !url.pathname.endsWith("/events") && !url.pathname.endsWith("/pack");
}

/** Some pages of a map are a part of the whole one, which is kept. */
function isPart(url) {
  return url.pathname.endsWith("/map") && url.searchParams.has("pages");
}

/** What the service answers now; what it answered last where it doesn't. */
async function data(event, url) {
  const cache = await caches.open(DATA);
  const before = timesForgotten(url);
  let answer;
  try {
    answer = await fetch(event.request);
  } catch (error) {
    // a picture in another size is better than none, and the whole map has every page
    const kept = (await cache.match(event.request.url)) ?? (url.pathname.endsWith("/image") || isPart(url) ? await cache.match(event.request.url, { ignoreSearch: true }) : undefined);
    if (kept) return kept;
    throw error;
  }
  if (answer.status === 401) event.waitUntil(ended(answer.clone(), url));
  if (answer.status !== 200 || isPart(url)) return answer;
  // read once and given twice: of an answer that is split in two, the half to keep never ends when the page leaves
  const body = await answer.arrayBuffer();
  event.waitUntil(keep(cache, url, answer.headers, body, before));
  return new Response(body, { status: 200, headers: answer.headers });
}

/** What a link that has ended let in stays no longer than the link. */
async function ended(answer, url) {
  const book = /^\/api\/books\/([^/]+)/.exec(url.pathname)?.[1];
  const { code } = await answer.json();
  if (code === "ENDED" && book) await forget(book);
}

async function keep(cache, url, said, body, before) {
  const headers = new Headers(said);
  headers.set(KEPT, new Date().toISOString());
  await cache.put(url.href, new Response(body, { status: 200, headers }));
  // the book was put away while this came in
  if (timesForgotten(url) !== before) await cache.delete(url.href);
}

/** The book an address is about as a whole, or all its pictures; nothing where it is about a part of one. */
function bookOnly(url) {
  return /^\/api\/(?:books|bin)\/([^/]+)(?:\/pictures)?$/.exec(url.pathname)?.[1] ?? "";
}

async function removed(request, book) {
  const answer = await fetch(request);
  if (answer.ok) await forget(book);
  return answer;
}

/** How often each book was put away since this began: what was asked for before may come in after. */
const forgotten = new Map();

function timesForgotten(url) {
  return forgotten.get(/^\/api\/books\/([^/]+)/.exec(url.pathname)?.[1]) ?? 0;
}

/** Nothing of a book that is put away stays here. */
async function forget(book) {
  forgotten.set(book, (forgotten.get(book) ?? 0) + 1);
  const cache = await caches.open(DATA);
  const below = new RegExp(`^/api/books/${book.replace(/[^\w-]/g, "\\$&")}(/|$)`);
  const keys = await cache.keys();
  await Promise.all(keys.filter((key) => below.test(new URL(key.url).pathname)).map((key) => cache.delete(key)));
}
