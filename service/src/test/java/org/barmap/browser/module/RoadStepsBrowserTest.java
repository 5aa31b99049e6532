package org.barmap.browser.module;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/**
 * A step of the changes is answered with the numbers that are drawn otherwise only: what a window
 * makes of that is what it would be if it were opened now, whatever others do meanwhile.
 */
class RoadStepsBrowserTest extends BookOfModules {

  private static final int STEPS = Integer.getInteger("barmap.roadSteps", 25);

  /** A road map of mine, and what is shown by one that is opened now; nobody is told of steps. */
  private static final String BOTH =
      """
      const [{ RoadModel }, { EventBus }] = await Promise.all([import('/js/road/model.js'), import('/js/core/bus.js')]);
      const path = '/api/books/' + book;
      const heard = [];
      const road = async () => {
        const bus = new EventBus();
        bus.on('stale', clash => heard.push(clash ? clash.mine : 'stale'));
        const model = new RoadModel(book, bus);
        await model.load();
        return model;
      };
      const shown = m => JSON.stringify([m.changes, m.numbers, m.marks, m.plan]);
      const settings = async values => {
        const now = await fetch(path + '/settings');
        const told = await fetch(path + '/settings', {method: 'PUT', body: JSON.stringify(values),
          headers: {'Content-Type': 'application/json', 'If-Match': now.headers.get('ETag')}});
        if (!told.ok) throw new Error(await told.text());
      };
      const clear = async () => {
        const m = await road();
        while (m.changes.length) await m.remove(m.changes[0]);
        await settings({version: 'evening', repeatsAfterJump: false});
      };
      await clear();
      """;

  @Test
  void whatIsShownAfterStepsIsWhatIsShownWhenItIsOpenedNow() {
    assertThat(
            run(
                """
                let seed = 20261129;
                const any = n => { seed = (seed * 1103515245 + 12345) % 2147483648; return Math.floor(seed / 65536) % n; };
                const mine = await road();
                const others = await road();
                const change = () => {
                  const number = ['1', '2', '4', '6'][any(4)];
                  const first = 10 + any(30);
                  const version = [{}, {version: 'matinee'}, {version: 'evening'}][any(3)];
                  const kinds = [
                    {kind: 'cut', number, first: String(first), last: String(first + any(9))},
                    {kind: 'vamp', number, first: String(first), last: String(first + 1), leave: 'end-of-pass'},
                    {kind: 'insert', number, after: String(first), bars: 1 + any(4)},
                    {kind: 'tacet', number},
                    {kind: 'remind', number, first: String(first), what: 'watch'}];
                  return {...kinds[any(kinds.length)], ...version};
                };
                const one = m => m.changes[any(m.changes.length)];
                const step = m => {
                  const what = m.changes.length < 2 ? 0 : any(6);
                  if (what < 2) return m.add(change());
                  if (what === 2) return m.switch(one(m), any(2) === 0);
                  if (what === 3) return m.remove(one(m));
                  return what === 4 ? m.undo() : m.redo().catch(() => m.load());
                };
                const theirs = [
                  () => {}, () => {}, () => {},
                  async () => { await others.load(); await step(others); },
                  () => settings({version: ['matinee', 'evening'][any(2)]}),
                  () => settings({repeatsAfterJump: any(2) === 0}),
                  async () => {
                    const map = await fetch(path + '/map');
                    const bars = (await map.json()).bars;
                    const bar = bars[any(bars.length)].id;
                    await fetch(path + '/corrections', {method: 'POST', body: JSON.stringify({kind: 'set-rehearsal', bar, text: 'Q' + any(99), enclosure: 'box'}),
                      headers: {'Content-Type': 'application/json', 'If-Match': map.headers.get('ETag')}});
                  }];
                for (let i = 0; i < steps; i++) {
                  await theirs[any(theirs.length)]();
                  await step(mine);
                  const now = shown(await road());
                  if (shown(mine) !== now) return `step ${i} of ${steps}: ` + shown(mine).length + ' ' + now.length;
                }
                return 'the same';
                """))
        .isEqualTo("the same");
  }

  /** Nobody is told of it by an event, and no change was touched. */
  @Test
  void theShowsVersionIsSwitchedInAnotherWindow() {
    assertThat(
            run(
                """
                const mine = await road();
                await mine.add({kind: 'cut', number: '1', first: '20', last: '24', version: 'matinee'});
                await settings({version: 'matinee'});
                await mine.add({kind: 'cut', number: '2', first: '20', last: '24'});
                const cut = mine.numbers.map(n => n.bars.filter(b => b.cut).length > 0 ? n.label : '');
                return cut.filter(l => l).join(' ') + ', ' + (shown(mine) === shown(await road()));
                """))
        .isEqualTo("1 2, true");
  }

  /** Two boxes ticked faster than the service answers are no clash with somebody else. */
  @Test
  void quickStepsGoOneAfterTheOther() {
    assertThat(
            run(
                """
                const mine = await road();
                for (const first of ['20', '30', '40']) await mine.add({kind: 'cut', number: '1', first, last: first});
                await Promise.all(mine.changes.map(c => mine.switch(c, false)));
                return mine.changes.map(c => c.on).join(' ') + ' ' + heard.join();
                """))
        .isEqualTo("false false false ");
  }

  /** What was asked for before a step, and comes after its answer, is not shown over it. */
  @Test
  void whatWasAskedBeforeAStepIsNotShownOverIt() {
    assertThat(
            run(
                """
                const mine = await road();
                const real = window.fetch;
                let go;
                const later = new Promise(r => go = r);
                let held;
                const there = new Promise(r => held = r);
                window.fetch = async (...asked) => {
                  const answer = await real(...asked);
                  if (String(asked[0]).endsWith('/roadmap')) { held(); await later; }
                  return answer;
                };
                const loading = mine.load();
                await there;
                window.fetch = real;
                const stepped = mine.add({kind: 'cut', number: '1', first: '20', last: '24'});
                await stepped;
                go();
                await loading;
                return mine.changes.length + ' ' + (shown(mine) === shown(await road()));
                """))
        .isEqualTo("1 true");
  }

  private String run(String body) {
    return called("const steps = %d;".formatted(STEPS), BOTH, body);
  }
}
