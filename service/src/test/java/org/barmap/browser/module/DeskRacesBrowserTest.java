package org.barmap.browser.module;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Answers that come in another order than they were asked for: the desk shows what there is. */
class DeskRacesBrowserTest extends BookOfModules {

  /** A desk's map of page 1, and answers that are held back until somebody lets them go. */
  private static final String DESK =
      """
      const [{ DeskModel }, { EventBus }] = await Promise.all([import('/js/desk/model.js'), import('/js/core/bus.js')]);
      const path = '/api/books/' + book;
      const real = window.fetch;
      const hold = end => {
        let there, go;
        const came = new Promise(r => there = r);
        const later = new Promise(r => go = r);
        window.fetch = async (...asked) => {
          const answer = await real(...asked);
          if (String(asked[0]).endsWith(end)) { window.fetch = real; there(); await later; }
          return answer;
        };
        return {came, go};
      };
      const bars = (await (await real(path + '/map')).json()).bars;
      const on = page => bars.find(b => b.page === page).id;
      const mark = (bar, text) => ({kind: 'set-rehearsal', bar, text, enclosure: 'box'});
      const bus = new EventBus();
      const desk = new DeskModel(book, bus);
      await desk.load(1);
      const text = (page) => desk.barsOn(page).find(b => b.id === on(page))?.rehearsal?.text;
      """;

  @Test
  void aPageAskedForBeforeAStepIsNotLaidOverWhatTheStepMadeOfIt() {
    assertThat(
            run(
                """
                const page = hold('/map?pages=2');
                const coming = desk.need(2);
                await page.came;
                await desk.correct(mark(on(2), 'Q1'));
                const step = hold('/corrections?pages=changed');
                const second = desk.correct(mark(on(1), 'Q2'));
                await step.came;
                page.go();
                await (await real(path + '/map')).json();
                step.go();
                await Promise.all([second, coming]);
                return text(1) + ' ' + text(2);
                """))
        .isEqualTo("Q2 Q1");
  }

  @Test
  void whatOthersDidWhileAStepWasOnItsWayIsShownAfterIt() {
    assertThat(
            run(
                """
                const step = hold('/corrections?pages=changed');
                const mine = desk.correct(mark(on(1), 'Q3'));
                await step.came;
                const now = await real(path + '/map');
                const theirs = await real(path + '/corrections', {method: 'POST', body: JSON.stringify(mark(on(1), 'Q4')),
                  headers: {'Content-Type': 'application/json', 'If-Match': now.headers.get('ETag')}});
                const seen = new Promise(r => bus.on('map', () => text(1) === 'Q4' && r('seen')));
                bus.emit('live:map', {revision: (await theirs.json()).revision});
                step.go();
                await mine;
                return seen;
                """))
        .isEqualTo("seen");
  }

  /** Steps are answered with the pages that are different only. */
  @Test
  void whatIsShownAfterStepsIsWhatIsShownWhenItIsOpenedNow() {
    assertThat(
            run(
                """
                let seed = 7;
                const any = n => { seed = (seed * 1103515245 + 12345) % 2147483648; return Math.floor(seed / 65536) % n; };
                const whole = async (model) => {
                  await model.load(1);
                  for (let page = 1; page <= model.pageCount; page++) await model.need(page);
                  return model;
                };
                const shown = m => JSON.stringify([m.map.bars, m.map.numbers, m.map.pages, m.map.findings, m.doubts]);
                await whole(desk);
                const bar = () => { const all = desk.map.bars; return all[any(all.length)]; };
                const correction = () => {
                  const {id} = bar();
                  return [
                    mark(id, 'R' + any(99)),
                    {kind: 'set-number', bar: id, number: 1 + any(300)},
                    {kind: 'set-meter', bar: id, beats: 2 + any(4), unit: 4},
                    {kind: 'set-content', bar: id, content: 'multi-rest', count: 2 + any(9)},
                    {kind: 'set-content', bar: id, content: 'music', count: 1},
                    {kind: 'start-number', bar: id, label: String(20 + any(50)), title: ''}][any(6)];
                };
                const theirs = async () => {
                  const now = await real(path + '/map?pages=1');
                  await real(path + '/corrections', {method: 'POST', body: JSON.stringify(correction()),
                    headers: {'Content-Type': 'application/json', 'If-Match': now.headers.get('ETag')}});
                };
                const steps = [() => desk.correct(correction()), () => desk.correct(correction()), () => desk.undo(), () => desk.redo()];
                for (let i = 0; i < 25; i++) {
                  if (any(4) === 0) await theirs();
                  if (any(5) === 0) await desk.look(1 + any(desk.pageCount));
                  await Promise.all([steps[any(4)](), ...(any(3) === 0 ? [steps[any(4)]()] : [])]);
                  const here = shown(desk);
                  if (desk.map.pages.some(p => !desk.has(p.index))) { // others were faster: the rest comes when it is looked at
                    for (let page = 1; page <= desk.pageCount; page++) await desk.need(page);
                    if (shown(desk) !== shown(await whole(new DeskModel(book, new EventBus())))) return 'step ' + i + ' after others';
                    continue;
                  }
                  const now = await whole(new DeskModel(book, new EventBus()));
                  if (here !== shown(now)) {
                    const at = [...here].findIndex((c, n) => c !== shown(now)[n]);
                    return `step ${i}: ` + here.slice(at - 200, at + 100) + ' / ' + shown(now).slice(at - 200, at + 100);
                  }
                }
                return 'the same';
                """))
        .isEqualTo("the same");
  }

  /** It says nothing of the edit, nor of one that was taken back. */
  @Test
  void whereOneHasToWaitALittleAnEditIsSentLater() {
    assertThat(
            run(
                """
                const out = await import('/js/core/outbox.js');
                await import('/js/core/back.js');
                const states = [];
                for (const takenBack of [false, true]) {
                  await out.put({key: 'c'.repeat(32), at: 1, method: 'PATCH', path: '/api/books/none', body: {title: 'c'}, match: '1', state: 'waiting', takenBack});
                  window.fetch = async () => new Response('{"detail": "Wait a little"}', {status: 429});
                  await out.send();
                  window.fetch = real;
                  states.push((await out.waiting()).filter(e => e.key.startsWith('c')).map(e => e.state).join());
                  await out.drop('c'.repeat(32));
                }
                return states.join(' ');
                """))
        .isEqualTo("waiting waiting");
  }

  /** Edits that were made in the same millisecond are two. */
  @Test
  void allThatClashedAreMadeAllTheSame() {
    assertThat(
            run(
                """
                const out = await import('/js/core/outbox.js');
                for (const key of ['a', 'b']) {
                  await out.put({key: key.repeat(32), at: 1, method: 'PATCH', path: '/api/books/none', body: {title: key}, match: '1', state: 'clash'});
                }
                const until = async (what) => { for (;;) { const found = await what(); if (found) return found; await (await real('/site.json')).text(); } };
                (await until(() => document.querySelector('#net-edits:not([hidden])'))).click();
                (await until(() => document.querySelector('#net-again-all'))).click();
                return until(async () => (await out.waiting()).every(e => e.state === 'refused') && 'all');
                """))
        .isEqualTo("all");
  }

  private String run(String body) {
    return called(DESK, body);
  }
}
