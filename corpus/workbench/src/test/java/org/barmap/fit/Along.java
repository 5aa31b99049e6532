package org.barmap.fit;

import tools.jackson.databind.JsonNode;

/** Distances along a staff that may be turned. */
record Along(double x, double y, double dx, double dy, double space) {
  /** Along the upper side of an outline, from its first corner on. */
  static Along of(JsonNode outline, double space) {
    double x = outline.at("/0/0").asDouble();
    double y = outline.at("/0/1").asDouble();
    double dx = outline.at("/1/0").asDouble() - x;
    double dy = outline.at("/1/1").asDouble() - y;
    double length = Math.hypot(dx, dy);
    return new Along(x, y, dx / length, dy / length, space);
  }

  /** Where a corner of an outline lies, staff spaces. */
  double at(JsonNode outline, int corner) {
    double px = outline.at("/" + corner + "/0").asDouble() - x;
    double py = outline.at("/" + corner + "/1").asDouble() - y;
    return (px * dx + py * dy) / space;
  }
}
