package org.barmap.browser.module;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Three windows of one browser share the edits that wait: nothing is made twice, nothing is lost.
 * Each window is an instance of the module of its own, with the browser's one store between them.
 */
class SharedOutboxBrowserTest extends BookOfModules {

  private static final String WINDOWS =
      """
      const stamp = String(Math.random());
      const open = n => import('/js/core/outbox.js?window=' + n + stamp);
      const [one, two, three] = await Promise.all([open(1), open(2), open(3)]);
      for (const old of await one.waiting()) await one.drop(old.key);
      const path = '/api/books/' + book + '/changes';
      const list = async () => (await (await fetch(path)).json()).changes.map(c => c.text);
      const seen = async () => (await fetch(path)).headers.get('ETag').replace(/"/g, '');
      const note = text => ({kind: 'remind', number: '1', first: '1', what: 'text', text});
      const say = async (window, text, match) => window.put({key: one.newKey(), at: Date.now(), method: 'POST', path, body: note(text), match, state: 'waiting'});
      const left = async () => (await one.waiting()).map(e => e.body.text + (e.takenBack ? ' back' : '') + ' ' + e.state);
      """;

  /** A page that sends nothing by itself. */
  @Override
  String page() {
    return "/docs/run.html";
  }

  private String run(String steps) {
    return called(WINDOWS + steps);
  }

  private static final String ALL_SEND =
      """
      const match = await seen();
      const before = await list();
      for (let i = 0; i < 4; i++) {
        await say(one, 'a' + i, match);
        await say(two, 'b' + i, match);
        await say(three, 'c' + i, match);
      }
      while ((await one.waiting()).some(e => e.state === 'waiting')) await Promise.all([one.send(), two.send(), three.send()]);
      return (await list()).slice(before.length).join(' ') + '; ' + (await left()).join();
      """;

  @Test
  void whatThreeWindowsSayIsMadeOnceInItsOrder() {
    assertThat(run(ALL_SEND)).isEqualTo("a0 b0 c0 a1 b1 c1 a2 b2 c2 a3 b3 c3; ");
  }

  /**
   * On a local net without TLS a browser has no locks. The keys keep an edit from being made twice;
   * one that another window's edit overtakes is shown as a clash, as anybody's would be.
   */
  @Test
  void withoutLocksNothingIsMadeTwiceNorLost() {
    String[] made =
        run("Object.defineProperty(navigator, 'locks', {value: undefined});\n" + ALL_SEND)
            .split("; ", 2);
    List<String> all = new ArrayList<>(List.of(made[0].split(" ")));
    for (String left : made[1].isEmpty() ? new String[0] : made[1].split(",")) {
      assertThat(left).endsWith(" clash");
      all.add(left.substring(0, left.indexOf(' ')));
    }
    assertThat(all)
        .containsExactlyInAnyOrder(
            "a0", "b0", "c0", "a1", "b1", "c1", "a2", "b2", "c2", "a3", "b3", "c3");
  }

  /** Another window takes an edit back at the moment in which this one hears that it was made. */
  @Test
  void whatIsTakenBackWhileItIsMadeIsStillToBeTakenBack() {
    assertThat(
            run(
                """
                const edit = await say(one, 'taken', await seen());
                let put;
                one.whenMade(made => put = two.put({...made, takenBack: true}));
                await one.send();
                await put;
                return (await left()).join();
                """))
        .isEqualTo("taken back waiting");
  }

  /** Another window takes the second edit back while what came of the first is noted at it. */
  @Test
  void whatIsTakenBackWhileAnotherIsMadeStaysTakenBack() {
    assertThat(
            run(
                """
                const match = await seen();
                const before = await list();
                await say(one, 'first', match);
                const second = await say(one, 'second', match);
                const all = IDBObjectStore.prototype.getAll;
                let looks = 0, put;
                one.whenMade(made => looks = made.body.text === 'first' ? 1 : looks);
                IDBObjectStore.prototype.getAll = function (...asked) {
                  const request = all.apply(this, asked);
                  if (looks === 1 && this.transaction.mode === 'readonly') {
                    looks = 2;
                    request.addEventListener('success', () => put = two.put({...second, takenBack: true}));
                  }
                  return request;
                };
                one.whenTakenBack(async () => 'later');
                await one.send();
                IDBObjectStore.prototype.getAll = all;
                await put;
                return (await list()).slice(before.length).join() + '; ' + (await left()).join();
                """))
        .isEqualTo("first; second back waiting");
  }
}
