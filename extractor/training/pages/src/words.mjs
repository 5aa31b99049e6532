// Vocabulary of made pages. All titles are our own inventions; terms are the trade's.
export const TEMPI = ['Allegro', 'Andante', 'Moderato', 'Adagio', 'Presto', 'Vivace', 'Largo', 'Lento', 'Allegretto', 'Andantino',
  'Allegro moderato', 'Allegro con brio', 'Allegro vivace', 'Molto allegro', 'Più mosso', 'Meno mosso', 'Poco più mosso', 'Tempo I',
  'Tempo primo', 'L’istesso tempo', 'Maestoso', 'Pesante', 'Grave', 'Con moto', 'Tempo di valse', 'Tempo di marcia', 'Alla marcia',
  'Langsam', 'Mäßig', 'Lebhaft', 'Ruhig', 'Etwas bewegter', 'Nicht eilen', 'Sehr breit', 'Vif', 'Modéré', 'Lent', 'Assez vif',
  'Slow 4', 'In 2', 'In one', 'Half time', 'Double time', 'Medium swing', 'Slow waltz', 'Bright two', 'Rubato', 'Colla voce',
  'Freely', 'Tempo ad lib.', 'Steady', 'Driving', 'Ballad', 'Shuffle', 'Gently', 'With motion', 'Bossa', 'March', 'Tango'];
export const ALTER = ['rit.', 'ritard.', 'accel.', 'a tempo', 'rall.', 'poco rit.', 'molto rit.', 'poco a poco accel.', 'allarg.', 'string.',
  'ritenuto', 'stringendo', 'colla parte', 'meno', 'più mosso', 'calando', 'morendo', 'riten.', 'tempo'];
export const PLAYING = ['arco', 'pizz.', 'con sord.', 'senza sord.', 'div.', 'unis.', 'solo', 'tutti', 'soli', 'sul pont.', 'col legno',
  'marc.', 'stacc.', 'cantabile', 'espr.', 'dolce', 'legato', 'leggiero', 'sempre stacc.', 'mute', 'open', 'slap', 'l.v.', 'secco',
  'ten.', 'sost.', 'non div.', 'detaché', 'spicc.', 'trem.', 'ord.', 'bow', 'drop D', 'marcatissimo', 'subito', 'sempre', 'simile'];
export const DYNTEXT = ['cresc.', 'dim.', 'cresc. poco a poco', 'decresc.', 'più f', 'meno f', 'sempre p', 'poco', 'molto', 'sempre ff'];
export const CUES = ['Fl.', 'Ob.', 'Cl.', 'Bsn.', 'Hn.', 'Tpt.', 'Trb.', 'Vln. I', 'Vla.', 'Vc.', 'Dr.', 'Pno.', 'Keys', 'Gtr.', 'Perc.',
  'Viol. I.', 'Vcello', 'Reed 2', 'Tutti', 'Voice', '(Cl.)', '(Trb. 3)', 'Hr. 3.4', 'Timp.', 'Harp', 'Ten.', 'Sop.', 'cue: Hn.'];
export const THEATRE = ['Vamp', 'VAMP', '(vamp)', 'Safety', '(safety)', 'Last time only', '1st x only', '2nd x only', 'Play 2nd time', 'tacet 1st time',
  'TACET', 'Tacet al fine', 'On cue', 'Cut off on cue', 'Segue', 'SEGUE', 'Segue as one', 'Attacca', 'attacca', 'G.P.', 'V.S.', 'Time',
  'Dialogue', '(Dialogue)', 'Vamp till cue', 'vocal last x', 'Out', 'Watch', 'To Elec.', 'To D.B.', 'Take bow', 'N.C.', '3X', 'Play 3 times',
  'Applause segue', 'last x', 'cue to continue', '(in 2)', '(in 4)', 'fade', 'Solo ad lib.', 'As is', 'To bow', 'Button', 'Bells', 'Blackout'];
export const INSTRUMENTS = ['Double Bass', 'Bass', 'Electric Bass', 'Contrabass', 'Basso', 'Contrabasso', 'Tuba', 'Trombone 3', 'Bassoon', 'Violoncello',
  'Cello', 'Horn in F 2', 'Trumpet 1', 'Viola', 'Clarinet 2', 'Reed 3', 'Fagotto II', 'Kontrabaß', 'Cb.', 'Bass (Ac. & Elec.)', 'Basse'];
export const FIRST = ['Low', 'Late', 'Salt', 'Grey', 'Quiet', 'Old', 'Second', 'Broken', 'Brass', 'Paper', 'Winter', 'Harbour', 'Lantern', 'Open', 'Long', 'Copper', 'Slow',
  'Midnight', 'Borrowed', 'Half', 'River', 'Tin', 'Empty', 'Northern', 'Sunday'];
export const SECOND = ['Tide', 'Water', 'Road', 'Ferry', 'Lamp', 'Garden', 'Waltz', 'March', 'Parade', 'Letter', 'Supper', 'Bells', 'Window', 'Weather', 'Morning', 'Company', 'Chorus',
  'Goodbye', 'Reprise', 'Dance', 'Overture', 'Ballet', 'Chase', 'Quarrel', 'Promise', 'Scene', 'Entrance', 'Bows'];
export const PUBLISHERS = ['Reedmace Music', 'Saltmarsh Editions', 'Fenland Parts Library', 'Curlew & Teal', 'Samphire Press', 'Glasswort Verlag', 'Spartina Copyists'];
export const NOTES = ['Do not mark in ink', 'Property of the library', 'Return clean', 'Printed in the fens', 'Alle Rechte vorbehalten', 'All rights reserved', 'V. S.', 'Bass – Act One', 'rev. 3/11'];
export const SYLLABLES = ['the', 'wa-', 'ter', 'runs', 'a-', 'way', 'and', 'no', 'one', 'comes', 'home', 'sing', 'oh', 'lan-', 'tern', 'light', 'so', 'long', 'good', 'night'];
export const title = r => `${r.pick(FIRST)} ${r.pick(SECOND)}`;
