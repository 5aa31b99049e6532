package org.barmap.browser.module;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The arithmetic of the pages, called where it runs: modules loaded in the browser. */
class ModuleBrowserTest extends OpenModules {

  /** 6/8 in two, 12/8 in four, 2/2 in two: common practice. */
  @Test
  void compoundMetersAreClickedInDottedBeats() {
    assertThat(beats("{beats: 6, unit: 8}", "undefined")).isEqualTo("2 of 1.5");
    assertThat(beats("{beats: 12, unit: 8}", "undefined")).isEqualTo("4 of 1.5");
    assertThat(beats("{beats: 2, unit: 2}", "undefined")).isEqualTo("2 of 2");
    assertThat(beats("{beats: 3, unit: 8}", "undefined")).isEqualTo("3 of 0.5");
    assertThat(beats("{beats: 2, unit: 2}", "4")).as("in four").isEqualTo("4 of 1");
  }

  /** Three questions, answered in every order: what is shown last is never an older answer. */
  @Test
  void anAnswerThatComesLateIsNotShownOverANewerOne() {
    assertThat(shown("0, 1, 2")).isEqualTo("0 1 2");
    assertThat(shown("0, 2, 1")).isEqualTo("0 2");
    assertThat(shown("1, 0, 2")).isEqualTo("1 2");
    assertThat(shown("1, 2, 0")).isEqualTo("1 2");
    assertThat(shown("2, 0, 1")).isEqualTo("2");
    assertThat(shown("2, 1, 0")).isEqualTo("2");
  }

  private String shown(String answered) {
    return module(
        "/js/core/newest.js",
        "const n = new m.Newest(); const may = [n.ask(), n.ask(), n.ask()];"
            + "return [%s].filter(i => may[i]()).join(' ')".formatted(answered));
  }

  /** Of a long list only what is drawn from something else now is drawn anew, in its place. */
  @Test
  void whatIsDrawnFromTheSameIsLeftAlone() {
    assertThat(
            module(
                "/js/road/kept-nodes.js",
                "const into = document.createElement('div'); into.textContent = 'wait';"
                    + "const kept = new m.KeptNodes(into); let n = 0; const seen = [];"
                    + "const show = (...all) => { kept.show(all.map(of => ({of: [of, {w: 9}], draw: () => {"
                    + " const e = document.createElement('p'); e.textContent = of + ++n; return e;"
                    + "}}))); seen.push([...into.children].map(e => e.textContent).join('')); };"
                    + "show('a', 'b', 'c'); show('a', 'x', 'c', 'd'); show('a'); show('b', 'a');"
                    + "return seen.join(' ')"))
        .isEqualTo("a1b2c3 a1x4c3d5 a1 b6a7");
  }

  /**
   * What a correction says itself is seen while it waits; what follows from it is left as it was.
   */
  @Test
  void whatWaitsIsLaidOverTheMapAsFarAsItSaysSo() {
    assertThat(waits("{kind: 'set-number', bar: 'b', number: 40}")).isEqualTo("1A 40* 3");
    assertThat(waits("{kind: 'move-rehearsal', bar: 'a', to: 'c'}")).isEqualTo("1* 2 3A*");
    assertThat(waits("{kind: 'set-meter', bar: 'a', beats: 3, unit: 4}")).isEqualTo("1A3/4* 2 3");
    assertThat(waits("{kind: 'set-content', bar: 'b', content: 'multi-rest', count: 7}"))
        .isEqualTo("1A 2x7* 3");
    assertThat(waits("{kind: 'move-barline', bar: 'a', side: 'end', x: 12, y: 5}"))
        .as("the bar beside it goes along")
        .isEqualTo("1A* 2* 3");
    assertThat(waits("{kind: 'add-barline', page: 1, system: 1, x: 25, y: 5}"))
        .as("which bars there are then is not known")
        .isEqualTo("1A 2 3*");
    assertThat(waits("{kind: 'remove-system', page: 1, system: 2}")).isEqualTo("1A 2 3");
    assertThat(
            waits(
                "{kind: 'set-number', bar: 'b', number: 4}, {kind: 'set-label', bar: 'b', label: '2A'}"))
        .as("one after the other")
        .isEqualTo("1A 2A* 3");
  }

  private String waits(String corrections) {
    return module(
        "/js/core/pending-map.js",
        "const o = (x) => [[x, 0], [x + 10, 0], [x + 10, 9], [x, 9]];"
            + "const bar = (id, number, more) => ({id, number, count: 1, page: 1, system: 1, outline: o(10 * number - 10), content: 'music', ...more});"
            + "const bars = [bar('a', 1, {rehearsal: {text: 'A', enclosure: 'box'}}), bar('b', 2), bar('c', 3)];"
            + "return m.barsCorrected(bars, ["
            + corrections
            + "].map(body => ({body}))).map(b => (b.label ?? b.number) + (b.rehearsal?.text ?? '')"
            + " + (b.meter ? b.meter.beats + '/' + b.meter.unit : '') + (b.count > 1 ? 'x' + b.count : '')"
            + " + (b.waits ? '*' : '')).join(' ');");
  }

  /** Changes that wait, in their order: added, said otherwise, taken out. */
  @Test
  void whatWaitsIsLaidOverTheChanges() {
    assertThat(
            module(
                "/js/core/pending.js",
                "const at = '/api/books/x/changes';"
                    + "const edits = ["
                    + "{key: 'k', at: 1, method: 'POST', path: at, body: {kind: 'cut', first: '3'}},"
                    + "{key: 'l', at: 2, method: 'POST', path: at, body: {changes: [{kind: 'vamp'}, {kind: 'note'}]}},"
                    + "{key: 'm', at: 3, method: 'PATCH', path: at + '/c1', body: {on: false, note: null}},"
                    + "{key: 'n', at: 4, method: 'DELETE', path: at + '/c2'}];"
                    + "return m.changesNow([{id: 'c1', kind: 'gp', note: 'x'}, {id: 'c2', kind: 'key'}], edits)"
                    + ".map(c => [c.id, c.kind, c.on === false ? 'off' : '', c.note ?? '', c.waits ? '*' : ''].join('')).join(' ');"))
        .isEqualTo("c1gpoff* waiting-k-0cut* waiting-l-0vamp* waiting-l-1note*");
  }

  /**
   * A right-hand page faces the left-hand one before it; a place nobody has a page for is a hole.
   */
  @Test
  void openingsShowThePagesThatAreMissing() {
    assertThat(openings("p(1, 0, 'right'), p(2, 1, 'left'), p(3, 2, 'right')"))
        .isEqualTo("- 1 | 2 gone | gone 3");
    assertThat(
            openings(
                "p(1, 0, 'right'), p(2, 1, 'left'), p(3, 1, 'right', 'inserted'), p(4, 3, 'left')"))
        .as("the back of a leaf laid in is blank")
        .isEqualTo("- 1 | 2 3 | 4 -");
  }

  private String openings(String pages) {
    return module(
        "/js/road/openings.js",
        "const p = (page, opening, side, leaf = 'bound') => ({page, opening, side, leaf});"
            + "const at = (l) => l.page ? l.page.page : l.gone ? 'gone' : '-';"
            + "return m.openingsOf(["
            + pages
            + "]).map(o => at(o.left) + ' ' + at(o.right)).join(' | ')");
  }

  /** Two pages in twenty seconds: six more take a minute. */
  @Test
  void theTimeThatReadingStillTakesIsToldOnceAPageWasReadInSight() {
    assertThat(
            module(
                "/js/book/job.js",
                "const bar = new m.JobBar();"
                    + "const at = (done, now) => { bar.draw({id: 'j', state: 'running', done, of: 10, text: 'Reading'}, now);"
                    + " return bar.node.querySelector('p').textContent; };"
                    + "return [at(2, 0), at(4, 20000), at(9, 60000), at(1, 70000)].join('; ')"))
        .isEqualTo(
            "Reading; Reading · about 1 min left; Reading · less than a minute left; Reading");
  }

  /** The old page goes only when the new one was read, and nobody else's new page goes with it. */
  @Test
  void aPageTakenAgainKeepsItsPlaceUntilTheNewOneIsRead() {
    assertThat(retake("waiting", "", true)).isEqualTo("wait");
    assertThat(retake("waiting", "", false)).as("the job failed").isEqualTo("wait");
    assertThat(retake("failed", "", false)).isEqualTo("refuse:n");
    assertThat(retake("read", "", false)).as("no music on it").isEqualTo("refuse:n");
    assertThat(retake("read", "expectedWrong: 0", true)).as("others are read").isEqualTo("wait");
    assertThat(retake("read", "expectedWrong: 0", false)).isEqualTo("replace:a,old,n,b,other");
  }

  private String retake(String state, String more, boolean reading) {
    return module(
        "/js/shared/retake.js",
        "const page = (id, source, state, more) => ({id, source, state, ...more});"
            + "const pages = [page('a', 'a.png', 'read'), page('old', 'x.png', 'read'), page('b', 'b.png', 'read'),"
            + "page('n', 'n.png', '"
            + state
            + "', {"
            + more
            + "}), page('other', 'o.png', 'read', {expectedWrong: 0})];"
            + "const step = m.retakeStep(pages, {page: pages[1], before: new Set(['a', 'old', 'b']), names: ['n.png']}, "
            + reading
            + ");"
            + "return step.kind + (step.kind === 'wait' ? '' : ':' + (step.order ?? step.fresh.map(p => p.id)).join())");
  }

  /** Sixteen bars of 4/4 in 32 seconds are 64 quarters in 32 s, so 120 a minute. */
  @Test
  void tapsGiveTheTempoBetweenThem() {
    assertThat(
            module(
                "/js/practice/taps.js",
                "const steps = Array.from({length: 17}, () => ({beats: 4, share: 1}));"
                    + "return m.tempi(steps, [{time: 10, step: 0}, {time: 42, step: 16}])[0].perMinute"))
        .isEqualTo("120");
  }

  @Test
  void aClickFollowsTheOrderOfPlayThroughAShortenedRest() {
    assertThat(
            module(
                "/js/shared/steps.js",
                "const bars = new Map([['a', {id: 'a', number: 1, count: 1, content: 'music', page: 1}],"
                    + "['r', {id: 'r', number: 2, count: 8, content: 'multi-rest', page: 1}]]);"
                    + "const order = [{bar: 'a', pass: 1}, {bar: 'r', pass: 1, from: 3, bars: 2}, {bar: 'a', pass: 2}];"
                    + "return m.barSteps({order}, bars, () => undefined).map(s => s.name + (s.left ? '/' + s.left : '')).join(' ')"))
        .isEqualTo("1 4/2 5/1 1");
  }

  /**
   * Computed: four bars of 4/4 from 60 to 120 a minute, evenly over 16 quarters, take 16 ln 2 =
   * 11.09 s; then 0.5 s a beat; at half speed all of it twice as long.
   */
  @Test
  void theClickGoesAsMarkedBarByBar() {
    String body =
        "const bars = new Map([1, 2, 3, 4, 5].map(n => ['b' + n, {id: 'b' + n, number: n, count: 1,"
            + " content: 'music', page: 1, meter: {beats: 4, unit: 4}}]));"
            + "const order = [...bars.keys()].map(bar => ({bar, pass: 1}));"
            + "const pace = [{from: 0, beats: 4, perMinute: 60, toPerMinute: 120},"
            + " {from: 4, beats: 2, perMinute: 120}];"
            + "const steps = m.barSteps({order, pace}, bars);"
            + "const time = (from, to, speed) => steps.slice(from, to).reduce((sum, s) => sum"
            + " + [...Array(s.beats).keys()].reduce((t, b) => t + m.clickSeconds(s, b, 1, speed), 0), 0);"
            + "return [time(0, 4, 1), time(4, 5, 1), time(0, 4, 0.5), steps[4].beats]"
            + ".map(v => v.toFixed(2)).join(' ')";
    assertThat(module("/js/shared/steps.js", body)).isEqualTo("11.09 2.00 22.18 2.00");
  }

  @Test
  void aVampIsHeldUntilTheKeyThenPlayedToItsEnd() {
    String heard = clicked("false");
    assertThat(heard).matches("a (v1 v2 ){3,}b");
  }

  @Test
  void aVampLeftAtAnyTimeIsLeftAfterTheBar() {
    assertThat(clicked("true")).matches("a (v1 v2 ){2,}(v1 )?b");
  }

  /** Bars as they are clicked, 60 ms each; the key is pressed when a sixth bar is heard. */
  private String clicked(String anyTime) {
    return module(
        "/js/practice/clicker.js",
        "const bar = (name, vamp) => ({name, vamp, anyTime: vamp !== '' && "
            + anyTime
            + ", beats: 1, share: 1, perMinute: 1000, toPerMinute: 1000, bar: name, page: 1});"
            + "const steps = [bar('a', ''), bar('v1', 'x'), bar('v2', 'x'), bar('b', '')];"
            + "const clicker = new m.Clicker(); clicker.level = 0; const heard = [];"
            + "clicker.heard = (step, beat, counting) => { if (!counting) heard.push(step.name);"
            + " if (heard.length === 6) clicker.goOn(); };"
            + "const over = new Promise(ok => { clicker.ended = ok; });"
            + "await clicker.start(steps, 0); await over; await new Promise(ok => setTimeout(ok, 300));"
            + "return heard.join(' ')");
  }

  @Test
  void anAnswersTextBecomesACorrection() {
    assertThat(
            module(
                "/js/desk/correction.js",
                "return JSON.stringify(m.toCorrection({kind: 'set-count', bar: 'b12', count: '8'}))"))
        .isEqualTo("{\"kind\":\"set-count\",\"bar\":\"b12\",\"count\":8}");
  }

  @Test
  void aPageSaysWhatIsLikelyWrongOnlyWhereItStandsOut() {
    assertThat(
            module("/js/core/words.js", "return [undefined, 0.9, 1.2, 2.6].map(m.toCheck).join()"))
        .isEqualTo(",,about 1 to check,about 3 to check");
  }

  @Test
  void aBarWhoseNumberOccursTwiceIsNamedWithItsEnding() {
    assertThat(
            module(
                "/js/road/address.js",
                "const bar = {number: 24, count: 3, within: '2nd ending'};"
                    + "return m.firstAddress(bar) + ', ' + m.lastAddress(bar) + ', '"
                    + " + m.firstAddress({number: 24, count: 1})"))
        .isEqualTo("24 in the 2nd ending, 26 in the 2nd ending, 24");
  }

  /**
   * Two endings are numbered alike here and straight on there: both are said, until it is said
   * which.
   */
  @Test
  void aBarWhoseNumberOccursTwiceHasBothOfTheDirectors() {
    assertThat(
            module(
                "/js/shared/theirs.js",
                "const one = (how, first, otherFirst) => ({how, first, last: first, otherFirst, otherLast: otherFirst, bars: 1, otherBars: 1});"
                    + "const stretches = [{...one('same', '1', '1'), last: '2'}, one('otherwise', '3 in the 1st ending', '3'),"
                    + " one('otherwise', '3 in the 2nd ending', '5'), {...one('otherwise', '5', '7'), last: '7'}];"
                    + "const t = new m.TheirBars({revision: 1, other: {part: 'Director', title: ''}, otherwise: [{number: '7', stretches}]});"
                    + "return [t.beside('7', '3'), t.beside('7', '3 in the 2nd ending'), t.beside('7', '1'), t.beside('7', '6'), t.beside('7', '3', '6')].join(', ')"))
        .isEqualTo("Director 3 or 5, Director 5, , Director 8, Director 3 or 5 to 8");
  }

  /** A command that fails is not kept, and the oldest are forgotten. */
  @Test
  void stepsAreKeptUpToALimit() {
    assertThat(
            module(
                "/js/core/commands.js",
                "const stack = new m.CommandStack(2); let n = 0;"
                    + "const add = k => ({text: 'add ' + k, run: () => { n += k; }, undo: () => { n -= k; }});"
                    + "await stack.run(add(1)); await stack.run(add(10)); await stack.run(add(100));"
                    + "await stack.run({text: 'no', run: () => { throw new Error('no'); }, undo: () => {}}).catch(() => {});"
                    + "const said = [await stack.undo(), await stack.undo(), await stack.undo()];"
                    + "return n + ' ' + said.join()"))
        .isEqualTo("1 add 100,add 10,");
  }

  private String beats(String meter, String shown) {
    return module(
        "/js/shared/steps.js",
        "const b = m.beatsOf(" + meter + ", " + shown + "); return b.beats + ' of ' + b.share");
  }

  private String module(String path, String body) {
    return String.valueOf(
        browser()
            .asyncScript(
                "const done = arguments[arguments.length - 1];"
                    + "import('"
                    + path
                    + "').then(async m => {"
                    + body
                    + "}).then(r => done(String(r)), e => done('failed: ' + e))"));
  }
}
