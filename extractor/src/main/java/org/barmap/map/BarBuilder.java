package org.barmap.map;

import java.util.List;
import java.util.Optional;

/** Builds a {@link Bar}, started from another one; every method returns this builder. */
public final class BarBuilder {
  private String id;
  private int page;
  private int system;
  private Outline outline;
  private int number;
  private Optional<String> label;
  private int count;
  private Optional<Meter> meter;
  private Optional<Key> key;
  private Barline startBarline;
  private Barline endBarline;
  private Optional<RehearsalMark> rehearsal;
  private Content content;
  private Optional<Double> silentStart;
  private Optional<Double> silentEnd;
  private List<Integer> ending;
  private List<Navigation> signs;
  private Optional<Integer> times;
  private List<Word> words;
  private double confidence;
  private Origin origin;
  private Optional<Evidence> evidence;

  BarBuilder(Bar from) {
    this.id = from.id();
    this.page = from.page();
    this.system = from.system();
    this.outline = from.outline();
    this.number = from.number();
    this.label = from.label();
    this.count = from.count();
    this.meter = from.meter();
    this.key = from.key();
    this.startBarline = from.startBarline();
    this.endBarline = from.endBarline();
    this.rehearsal = from.rehearsal();
    this.content = from.content();
    this.silentStart = from.silentStart();
    this.silentEnd = from.silentEnd();
    this.ending = from.ending();
    this.signs = from.signs();
    this.times = from.times();
    this.words = from.words();
    this.confidence = from.confidence();
    this.origin = from.origin();
    this.evidence = from.evidence();
  }

  /** Sets {@link Bar#id}. */
  public BarBuilder id(String value) {
    this.id = value;
    return this;
  }

  /** Sets {@link Bar#page}. */
  public BarBuilder page(int value) {
    this.page = value;
    return this;
  }

  /** Sets {@link Bar#system}. */
  public BarBuilder system(int value) {
    this.system = value;
    return this;
  }

  /** Sets {@link Bar#outline}. */
  public BarBuilder outline(Outline value) {
    this.outline = value;
    return this;
  }

  /** Sets {@link Bar#number}. */
  public BarBuilder number(int value) {
    this.number = value;
    return this;
  }

  /** Sets {@link Bar#label}. */
  public BarBuilder label(Optional<String> value) {
    this.label = value;
    return this;
  }

  /** Sets {@link Bar#label}. */
  public BarBuilder label(String value) {
    return label(Optional.of(value));
  }

  /** Sets {@link Bar#count}. */
  public BarBuilder count(int value) {
    this.count = value;
    return this;
  }

  /** Sets {@link Bar#meter}. */
  public BarBuilder meter(Optional<Meter> value) {
    this.meter = value;
    return this;
  }

  /** Sets {@link Bar#meter}. */
  public BarBuilder meter(Meter value) {
    return meter(Optional.of(value));
  }

  /** Sets {@link Bar#key}. */
  public BarBuilder key(Optional<Key> value) {
    this.key = value;
    return this;
  }

  /** Sets {@link Bar#key}. */
  public BarBuilder key(Key value) {
    return key(Optional.of(value));
  }

  /** Sets {@link Bar#startBarline}. */
  public BarBuilder startBarline(Barline value) {
    this.startBarline = value;
    return this;
  }

  /** Sets {@link Bar#endBarline}. */
  public BarBuilder endBarline(Barline value) {
    this.endBarline = value;
    return this;
  }

  /** Sets {@link Bar#rehearsal}. */
  public BarBuilder rehearsal(Optional<RehearsalMark> value) {
    this.rehearsal = value;
    return this;
  }

  /** Sets {@link Bar#rehearsal}. */
  public BarBuilder rehearsal(RehearsalMark value) {
    return rehearsal(Optional.of(value));
  }

  /** Sets {@link Bar#content}. */
  public BarBuilder content(Content value) {
    this.content = value;
    return this;
  }

  /** Sets {@link Bar#silentStart}. */
  public BarBuilder silentStart(Optional<Double> value) {
    this.silentStart = value;
    return this;
  }

  /** Sets {@link Bar#silentStart}. */
  public BarBuilder silentStart(Double value) {
    return silentStart(Optional.of(value));
  }

  /** Sets {@link Bar#silentEnd}. */
  public BarBuilder silentEnd(Optional<Double> value) {
    this.silentEnd = value;
    return this;
  }

  /** Sets {@link Bar#silentEnd}. */
  public BarBuilder silentEnd(Double value) {
    return silentEnd(Optional.of(value));
  }

  /** Sets {@link Bar#ending}. */
  public BarBuilder ending(List<Integer> value) {
    this.ending = value;
    return this;
  }

  /** Sets {@link Bar#signs}. */
  public BarBuilder signs(List<Navigation> value) {
    this.signs = value;
    return this;
  }

  /** Sets {@link Bar#times}. */
  public BarBuilder times(Optional<Integer> value) {
    this.times = value;
    return this;
  }

  /** Sets {@link Bar#times}. */
  public BarBuilder times(Integer value) {
    return times(Optional.of(value));
  }

  /** Sets {@link Bar#words}. */
  public BarBuilder words(List<Word> value) {
    this.words = value;
    return this;
  }

  /** Sets {@link Bar#confidence}. */
  public BarBuilder confidence(double value) {
    this.confidence = value;
    return this;
  }

  /** Sets {@link Bar#origin}. */
  public BarBuilder origin(Origin value) {
    this.origin = value;
    return this;
  }

  /** Sets {@link Bar#evidence}. */
  public BarBuilder evidence(Optional<Evidence> value) {
    this.evidence = value;
    return this;
  }

  /** Returns the bar. */
  public Bar build() {
    return new Bar(
        id,
        page,
        system,
        outline,
        number,
        label,
        count,
        meter,
        key,
        startBarline,
        endBarline,
        rehearsal,
        content,
        silentStart,
        silentEnd,
        ending,
        signs,
        times,
        words,
        confidence,
        origin,
        evidence);
  }
}
