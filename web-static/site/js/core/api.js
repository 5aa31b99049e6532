/** An answer of the service that says no, with its reason in plain words. */
export class ApiError extends Error {
  /**
   * @param {number} status 0 when nothing answered
   * @param {string} message
   * @param {any} [body]
   */
  constructor(status, message, body = {}) {
    super(message);
    this.name = "ApiError";
    this.status = status;
    this.body = body;
  }

  /** Somebody else changed the thing in between. */
  get stale() {
    return this.status === 412;
  }
}

const SILENT = "barmap is not answering. Is the program still running on this machine?";

/** @param {string|null} etag */
function bare(etag) {
  return (etag ?? "").replace(/^W\//, "").replace(/^"|"$/g, "");
}

/**
 * Talks to the service.
 *
 * @param {string} method
 * @param {string} path
 * @param {{body?: any, match?: string, signal?: AbortSignal}} [options]
 * @returns {Promise<{data: any, revision: string, headers: Headers}>}
 */
export async function call(method, path, { body, match, signal } = {}) {
  /** @type {Record<string, string>} */
  const headers = { Accept: "application/json, application/problem+json" };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (match !== undefined) headers["If-Match"] = `"${match}"`;
  let response;
  try {
    response = await fetch(path, {
      method,
      headers,
      body: body === undefined ? undefined : JSON.stringify(body),
      signal,
      cache: "no-store",
    });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new ApiError(0, SILENT);
  }
  const text = await response.text();
  const data = parse(text);
  if (!response.ok) {
    throw new ApiError(response.status, reason(data, response), data);
  }
  return {
    data,
    revision: bare(response.headers.get("ETag")) || String(data?.revision ?? ""),
    headers: response.headers,
  };
}

/** @param {string} text */
function parse(text) {
  if (!text) return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/**
 * @param {any} data
 * @param {Response} response
 */
function reason(data, response) {
  return String(data?.detail || data?.title || `That did not work (${response.status}).`);
}

/**
 * @param {string} path
 * @returns {Promise<any>} only the body
 */
export async function get(path) {
  return (await call("GET", path)).data;
}

/**
 * Sends files with progress.
 *
 * @param {string} path
 * @param {File[]} files
 * @param {(share: number) => void} progress 0 to 1
 * @param {string} [match] the revision that was seen
 * @returns {Promise<any>}
 */
export function upload(path, files, progress, match) {
  return new Promise((resolve, reject) => {
    const form = new FormData();
    for (const file of files) form.append("files", file, file.name);
    const request = new XMLHttpRequest();
    request.open("POST", path);
    request.setRequestHeader("Accept", "application/json, application/problem+json");
    if (match !== undefined) request.setRequestHeader("If-Match", `"${match}"`);
    request.upload.addEventListener("progress", (event) => {
      if (event.lengthComputable) progress(event.loaded / event.total);
    });
    request.addEventListener("load", () => {
      const data = parse(request.responseText);
      if (request.status >= 200 && request.status < 300) resolve(data);
      else reject(new ApiError(request.status, String(data?.detail || data?.title || "The files were not taken."), data));
    });
    request.addEventListener("error", () => reject(new ApiError(0, SILENT)));
    request.send(form);
  });
}

/**
 * @param {string} book
 * @param {string} [rest]
 */
export function bookPath(book, rest = "") {
  return `/api/books/${encodeURIComponent(book)}${rest}`;
}

/**
 * @param {string} book
 * @param {string} page
 * @param {number} [width]
 */
export function imagePath(book, page, width) {
  const query = width ? `?width=${width}` : "";
  return bookPath(book, `/pages/${encodeURIComponent(page)}/image${query}`);
}

/**
 * @param {string} book
 * @param {string} page
 * @param {string} bar
 * @param {number} [width]
 * @param {number} [bars] so many entries from that bar on, as far as its line goes
 */
export function cropPath(book, page, bar, width = 900, bars = 1) {
  return bookPath(book, `/pages/${encodeURIComponent(page)}/crop?bar=${encodeURIComponent(bar)}&width=${width}&bars=${bars}`);
}
