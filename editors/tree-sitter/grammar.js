// The form of the casewright language: statements, values, and braces, as in
// grammar/casewright.pest. It knows no word of the trade; queries/highlights.scm
// does, which is made from the vocabulary.

/// A number in each of its forms, of which one has a space: `17`, `3/4`, `17-1/4`,
/// `17 1/4`, `0.5`.
const NUMBER = /[0-9]+([- ][0-9]+\/[0-9]+|\/[0-9]+|\.[0-9]+)?/;

module.exports = grammar({
  name: "casewright",

  // A line end ends a statement, so it is none of these.
  extras: (_) => [/[ \t]/],

  word: ($) => $.name,

  rules: {
    file: ($) => repeat($._item),

    _item: ($) => choice($.statement, $.comment, $._end),

    _end: (_) => choice(";", "\n", "\r"),

    // A block behind it begins on its line.
    statement: ($) =>
      prec.right(seq(field("word", $.name), repeat($._argument), optional($.block))),

    block: ($) => seq("{", repeat($._item), "}"),

    _argument: ($) =>
      choice($.text, $.date, $.quantity, $.name, $.group, $.operator),

    group: ($) => seq("(", repeat1($._argument), ")"),

    operator: (_) => choice("+", "-", "*", "/"),

    // `35 mm`; after a number one of these words is always its unit.
    quantity: ($) => prec.right(seq($.number, optional($.unit))),

    // Foot and inch marks touch their number, so an inch mark begins no text.
    number: (_) =>
      token(
        seq(NUMBER, optional(choice(seq("'", optional(seq(/[ \t]*/, NUMBER, '"'))), '"'))),
      ),

    unit: (_) =>
      choice("%", "in", "ft", "mm", "cm", "min", "m", "deg", "F", "C", "h", "lb", "kg"),

    date: (_) => /[0-9]{4}-[0-9]{2}-[0-9]{2}/,

    text: (_) => /"(\\[^\r\n]|[^"\\\r\n])*"/,

    // Words with dots between them.
    name: (_) => /[A-Za-z]([A-Za-z0-9]|-[A-Za-z0-9]|\.[A-Za-z])*/,

    comment: (_) => /#[^\r\n]*/,
  },
});
