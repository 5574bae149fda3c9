// What a new piece says that is not taken from an example: the least box that can be built.

const INCHES = {
  unit: 'in',
  ply: 'plywood 3/4; actual 23/32; sheet { long 96; wide 48 }',
  thin: 'plywood 1/4; actual 13/64; sheet { long 96; wide 48 }',
  size: 'wide 24; deep 12; high 30',
  dado: '1/4',
  rabbet: '3/8',
};
const MILLIMETERS = {
  unit: 'mm',
  ply: 'plywood 18; sheet { long 2440; wide 1220 }',
  thin: 'plywood 6; sheet { long 2440; wide 1220 }',
  size: 'wide 600; deep 300; high 750',
  dado: '6',
  rabbet: '10',
};

function box({ unit, ply, thin, size, dado, rabbet }) {
  return `casework 1

job "My piece" { units ${unit} }

# The sheets, under names of your own.
stock ply  { ${ply} }
stock thin { ${thin} }

case box {
  # Over all.
  ${size}
  stock ply
  bottom { joint dado { deep ${dado} } }
  top { panel; joint rabbet { deep ${rabbet} } }
  back { stock thin; joint rabbet { deep ${rabbet} } }
  frame none

  # The openings, top to bottom.
  down {
    open inside { share 1; shelf { adjustable 2 } }
  }
}
`;
}

/** Boxes to begin with: `[name, what it is, its text]`. */
export const BLANKS = [
  ['A bare box, in inches', 'Two ends, a bottom, a top, and a back', box(INCHES)],
  ['A bare box, in millimeters', 'The same by the metric tape', box(MILLIMETERS)],
  ['Nothing at all', 'A name for the job, and an empty page', 'casework 1\n\njob "My piece" { units in }\n\n'],
];
