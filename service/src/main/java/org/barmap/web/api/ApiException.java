package org.barmap.web.api;

import java.util.Map;

/** Ends a request with an {@link ApiError}. */
public final class ApiException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final ApiError error;

  @SuppressWarnings("serial") // always an immutable map of plain values
  private final Map<String, Object> extra;

  /** Takes the error and what exactly, one sentence. */
  public ApiException(ApiError error, String detail) {
    this(error, detail, Map.of());
  }

  /** Takes the error, what exactly, and further members of the answer. */
  public ApiException(ApiError error, String detail, Map<String, Object> extra) {
    super(detail);
    this.error = error;
    this.extra = Map.copyOf(extra);
  }

  /** Returns the error. */
  public ApiError error() {
    return error;
  }

  /** Returns further members of the answer. */
  public Map<String, Object> extra() {
    return extra;
  }
}
