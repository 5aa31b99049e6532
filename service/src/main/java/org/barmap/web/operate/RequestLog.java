package org.barmap.web.operate;

import java.util.Map;
import java.util.TreeMap;

/** One line in the log for every request, where the log takes such lines. */
final class RequestLog {

  private static final System.Logger LOG = System.getLogger(RequestLog.class.getName());

  private RequestLog() {}

  static void write(String method, String route, int status, float milliseconds) {
    if (LOG.isLoggable(System.Logger.Level.INFO)) {
      Map<String, Object> fields =
          new TreeMap<>(
              Map.of(
                  "method",
                  method,
                  "route",
                  route,
                  "status",
                  status,
                  "milliseconds",
                  Math.round(milliseconds * 10) / 10.0));
      LOG.log(System.Logger.Level.INFO, "request", fields);
    }
  }
}
