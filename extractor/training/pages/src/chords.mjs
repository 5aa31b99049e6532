// Chord symbols as printers write them.
/** How this printer writes accidentals in chord symbols. */
export const chordText = (s, signs) => (signs ? s.replace(/([A-G])b/g, '$1♭').replace(/([A-G])#/g, '$1♯').replace(/b(\d)/g, '♭$1').replace(/#(\d)/g, '♯$1') : s).replace(/△/g, 'Δ');
