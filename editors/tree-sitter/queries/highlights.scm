; The colors of a casewright spec. Made from the vocabulary by tests/grammars; don't edit.

(comment) @comment
(text) @string
(number) @number
(date) @number
(unit) @type
(operator) @operator
[ "{" "}" "(" ")" ] @punctuation.bracket
";" @punctuation.delimiter

; Words that begin a statement.
((statement word: (name) @keyword)
  (#any-of? @keyword "abrasive" "accept" "across" "actual" "adjust" "adjustable" "allow" "apart"
    "around" "aside" "at" "back" "banding" "base" "base-plate" "baseboard" "batten" "beads"
    "behind-front" "bit" "board-ends" "boards" "bolt" "bore" "bottle" "bottom" "bottom-rail"
    "bottom-stock" "box" "box-high" "box-inside" "box-outside" "box-up" "build" "butt" "by" "can"
    "card" "case" "casework" "catch" "centers" "centres" "clamp" "clamping" "clamps" "clear"
    "clearance" "closing" "coats" "countertop" "cover" "covers" "cup" "cure" "currency" "cut"
    "cut-into" "dadoes" "day" "deep" "diagonals" "diameter" "divider" "door" "door-thickness"
    "doors" "dovetails" "dowel" "dowels" "down" "drawer" "drawers" "edge-trim" "edges" "end"
    "ends" "falling" "false" "feed" "fence" "filler" "finger" "finish" "first-cuts" "fit-front"
    "fixed" "fixing" "float" "flush" "flutes" "foot" "frame" "from-back" "from-bottom"
    "from-edge" "from-end" "from-front" "from-left" "from-right" "from-side" "from-top" "front"
    "fronts" "gap" "give" "glass" "glue" "grain" "gravity" "groove" "groove-wide" "hangs"
    "hardboard" "hardwax-oil" "held" "high" "hinge" "hinges" "hole" "hook" "hot" "humidity"
    "hung" "in" "in-sequence" "job" "joint" "joints" "keep-out" "kerf" "lacquer" "land" "lasts"
    "lay-out" "lead-time" "left" "leg" "legs" "length" "like" "lip" "load" "long" "lost" "lumber"
    "made" "mark" "mdf" "measured" "meeting" "members" "mid-rail" "middle" "mirror" "mirrored"
    "miter" "mix" "mortise" "nailers" "notch" "note" "oil" "on" "on-hand" "open" "open-time"
    "opening" "openings" "out" "over" "pack" "packer-stock" "packer-wide" "paint" "panel"
    "panel-stock" "particleboard" "partition" "partitions" "pass" "pilot" "pin-ahead" "pins"
    "pitch" "place" "planer" "plate" "play" "plywood" "pockets" "pose" "posts" "pot-life"
    "prefinished" "price" "pull" "pulls" "radial" "rail" "revision" "right" "rising" "rod" "roll"
    "room" "round-nose" "run" "same" "sanding" "sawn" "screw" "screws" "scribe" "seam" "separate"
    "set" "set-back" "set-in" "set-up" "shank" "share" "sheet" "shelf" "shelves" "shop" "shrinks"
    "side-mount" "site" "sled" "slide" "space" "species" "speed" "spoiled" "square" "stages"
    "stands" "stiffness" "stile" "stock" "stop" "straight" "stretchers" "studs" "supply" "swing"
    "takes" "tangential" "tape" "temperature" "tempered" "tenon" "thick" "thickness" "times"
    "toe-kick" "tolerance" "top" "tray" "undermount" "units" "up" "use" "varnish" "water-lacquer"
    "wax" "wide" "width" "with" "wooden" "worktop"))

; New names.
((statement word: (name) @_word . (name) @variable)
  (#any-of? @_word "across" "bit" "case" "divider" "door" "doors" "down" "drawer" "false"
    "filler" "finish" "hinge" "leg" "open" "pull" "slide" "space" "species" "stock" "tray"))
((statement word: (name) @_word . (name) @variable)
  (#any-of? @_word "rail")
  (#not-match? @variable "^(bottom|top)$"))
((statement word: (name) @_word . (name) @variable)
  (#any-of? @_word "run")
  (#not-match? @variable "^(horizontal|vertical)$"))
((statement word: (name) @_word . (name) @variable)
  (#any-of? @_word "stile")
  (#not-match? @variable "^(left|right)$"))

; Choices, behind the words that take them.
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "cover")
  (#any-of? @constant "back" "left" "right" "under"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "catch")
  (#any-of? @constant "ball" "magnet" "none"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "supply")
  (#any-of? @constant "ball-catches" "cabinet-screws" "clips" "door-stops" "fine-pocket-screws"
    "flat-head-screws" "hanging-rails" "large-head-screws" "magnetic-catches" "pan-head-screws"
    "plate-screws" "pocket-screws" "pull-screws" "rail-cups" "rail-hangers" "rail-screws"
    "shelf-pins" "wood-screws"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "rail")
  (#any-of? @constant "bottom" "top"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "joint")
  (#any-of? @constant "butt" "dado" "dovetail" "dowel" "pocket" "rabbet" "screw" "tenon"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "seam")
  (#any-of? @constant "butt" "miter" "mitre"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "at")
  (#any-of? @constant "by"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "first-cuts")
  (#any-of? @constant "crosscut" "rip"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "made")
  (#any-of? @constant "dado" "dovetails" "dowel-holes" "flute" "groove" "haunch" "hinge-cup"
    "leg-hole" "miter" "mitre" "mortise" "notch" "plate-hole" "pocket-holes" "pull-hole" "rabbet"
    "round-hole" "slot" "tenon"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "cut-into")
  (#any-of? @constant "ends"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "sawn")
  (#any-of? @constant "flat" "quarter" "rift"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "closing")
  (#any-of? @constant "free" "self"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "grain")
  (#any-of? @constant "horizontal" "long" "none" "vertical" "wide"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "run")
  (#any-of? @constant "horizontal" "vertical"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "units")
  (#any-of? @constant "in" "mm"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "set")
  (#any-of? @constant "inset" "overlay"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "end" "hung" "stile")
  (#any-of? @constant "left" "right"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "hangs")
  (#any-of? @constant "long" "short"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "lay-out")
  (#any-of? @constant "looks" "yield"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "up")
  (#any-of? @constant "middle" "upper-third"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "back" "bottom" "countertop" "frame" "front" "nailers" "partition" "shelf"
    "top")
  (#any-of? @constant "none"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "left" "right")
  (#any-of? @constant "none" "open" "wall"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "stop")
  (#any-of? @constant "none" "strip"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "fixing")
  (#any-of? @constant "none" "wall"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "build")
  (#any-of? @constant "panel" "slab" "web"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "dadoes")
  (#any-of? @constant "router" "saw"))
((statement word: (name) @_word (name) @constant)
  (#any-of? @_word "held")
  (#any-of? @constant "screw" "slots"))

; Words between figures, and measures that are words.
((statement word: (_) (name) @keyword.operator)
  (#any-of? @keyword.operator "each" "on" "per" "to"))
((quantity) . (name) @type
  (#any-of? @type "GPa" "board-foot" "days" "fl-oz" "ft" "ft2" "gal" "l" "m" "m2" "m3" "ml"
    "pack" "pair" "psi" "qt" "sheet" "weeks"))
((name) @_per . (name) @type
  (#eq? @_per "per")
  (#any-of? @type "C" "F" "GPa" "board-foot" "cm" "days" "deg" "fl-oz" "ft" "ft2" "gal" "h" "in"
    "kg" "l" "lb" "m" "m2" "m3" "min" "ml" "mm" "pack" "pair" "psi" "qt" "sheet" "weeks"))
