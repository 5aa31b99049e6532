package org.barmap.exchange.musicxml;

import java.util.LinkedHashMap;
import java.util.Map;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.ScoreTimewise;

/** A score ordered by time, put in order of its parts: nothing else differs between the two. */
final class Timewise {

  private Timewise() {}

  static ScorePartwise byParts(ScoreTimewise timewise) {
    ScorePartwise score = new ScorePartwise();
    score.setWork(timewise.getWork());
    score.setMovementNumber(timewise.getMovementNumber());
    score.setMovementTitle(timewise.getMovementTitle());
    score.setIdentification(timewise.getIdentification());
    score.setPartList(timewise.getPartList());
    score.getCredit().addAll(timewise.getCredit());
    Map<String, ScorePartwise.Part> parts = new LinkedHashMap<>();
    for (ScoreTimewise.Measure measure : timewise.getMeasure()) {
      int place = 0;
      for (ScoreTimewise.Measure.Part said : measure.getPart()) {
        String id = said.getId() instanceof ScorePart p ? p.getId() : "P" + (place + 1);
        ScorePartwise.Part part = parts.computeIfAbsent(id, i -> empty(said.getId()));
        part.getMeasure().add(measure(measure, said));
        place++;
      }
    }
    score.getPart().addAll(parts.values());
    return score;
  }

  private static ScorePartwise.Part empty(Object id) {
    ScorePartwise.Part part = new ScorePartwise.Part();
    if (id != null) {
      part.setId(id);
    }
    return part;
  }

  private static ScorePartwise.Part.Measure measure(
      ScoreTimewise.Measure measure, ScoreTimewise.Measure.Part said) {
    ScorePartwise.Part.Measure own = new ScorePartwise.Part.Measure();
    own.setNumber(measure.getNumber());
    own.setImplicit(measure.getImplicit());
    own.getNoteOrBackupOrForward().addAll(said.getNoteOrBackupOrForward());
    return own;
  }
}
