//! Furniture on posts, drawn at random.

use super::Writer;

impl Writer<'_> {
    /// A piece by itself on four posts, with paneled ends.
    pub(super) fn furniture(&mut self) {
        self.is("posts");
        self.line("site { left open; right open }");
        self.line("hinge leaf { butt; pin-ahead 3/16 in }");
        let (rough, post) = self.one_of(&[
            ("8/4", "1-3/4 in"),
            ("8/4", "45 mm"),
            ("8/4", "1-1/2 in"),
            ("10/4", "2 in"),
        ]);
        self.line(&format!(
            "stock post {{ lumber {rough}; thickness {post}; species sugar-maple }}"
        ));
        let (wide, deep) = (self.number(16) + 20, self.number(8) + 14);
        let high = self.number(16) + 26;
        self.line("case a {");
        self.line(&format!("wide {wide} in; deep {deep} in; high {high} in; stock ply"));
        let own = self.one_of(&["", "", "; wide 1-5/8 in", "; wide 50 mm"]);
        let base = self.one_of(&["5 in", "6-1/2 in", "150 mm", "8 in"]);
        self.line(&format!("base {{ posts {{ stock post{own} }}; high {base} }}"));
        let rail = self.one_of(&["rail 2-1/2 in", "rail 2 in; bottom-rail 3 in", "rail 65 mm"]);
        let tenon = self.one_of(&["", "; tenon 3/4 in", "; tenon 20 mm; set-in 15 mm"]);
        let back = self.one_of(&["", "; set-back 1/8 in", "; set-back 0 in", "; set-back 6 mm"]);
        if !back.is_empty() {
            self.is("boards notched around posts");
        }
        let panel = self.one_of(&[
            "panel-stock thin",
            "panel-stock panel; float 1/16 in",
            "panel-stock thin; groove 10 mm; room 2 mm",
        ]);
        self.line(&format!(
            "ends {{ stock maple; build panel {{ {rail}{tenon}{back}; {panel} }} }}"
        ));
        let flush = self.one_of(&["", "; flush"]);
        self.line(&format!("bottom {{ joint pocket{flush} }}"));
        let joint = self.joint(&["rabbet"]);
        self.line(&format!("back {{ stock thin; joint {joint} }}"));
        let count = self.number(2) + 2;
        self.line(&format!("top {{ stretchers {count} {{ wide 3 in }}; joint pocket }}"));
        let top = self.one_of(&[
            "countertop { stock cherry }",
            "countertop { stock maple; over 1 in }",
            "countertop { stock ply; over 3/4 in }",
            "",
        ]);
        self.line(top);
        if !back.is_empty() && self.number(9) > 2 {
            // What they run on goes with another choice, so that no piece changes but by it.
            let ahead = self.choices.clone().nth(1).map_or(0, |choice| choice >> 4);
            match ahead % 2 {
                0 => self.bureau(["beside", "under"][usize::from(ahead / 2 % 2)]),
                _ => self.chest(),
            }
        } else if self.number(10) > 0 {
            self.cupboard();
        } else {
            self.niches();
        }
        self.line("}");
        self.another();
    }

    /// Now and then another piece stands in the same file, by itself.
    fn another(&mut self) {
        let own = self.one_of(&[
            "",
            "",
            "case b { like a { mirrored } }",
            "case b { like a { mirrored }; wide 28 in }",
            "case b { like a; deep 20 in; high 44 in }\ncase c { like b { mirrored } }",
        ]);
        if !own.is_empty() {
            self.is("furniture that stands apart");
            self.line(own);
        }
    }

    /// A row of niches, with nothing behind their stiles.
    fn niches(&mut self) {
        let long = self.one_of(&[
            "tenon { long 1 in }",
            "tenon { long 25 mm; thick 6 mm }",
            "tenon { long 3/4 in; thick 1/4 in; set-in 10 mm }",
        ]);
        self.line(&format!("frame {{ stock maple; joint {long}"));
        self.line("rail top { wide 1-1/2 in }; rail bottom { wide 1-3/4 in }");
        self.line("across {");
        for number in 0..=self.number(3) {
            if number > 0 {
                let wide = self.one_of(&["1-1/2 in", "40 mm"]);
                self.line(&format!("stile {{ wide {wide}; partition none }}"));
            }
            self.line(&format!("open n{number} {{ share 1 }}"));
        }
        self.line("} }");
    }

    /// Doors, shelves, and dividers between posts.
    fn cupboard(&mut self) {
        let joint = self.joint(&["dado", "dado", "pocket"]);
        let back = self.one_of(&["", "", "; set-back 7 mm"]);
        self.line("partitions { stock ply; joint screw }");
        let pins = self.one_of(&["", "; pins { hole 5 mm; deep 10 mm; pitch 32 mm }"]);
        self.line(&format!("shelves {{ joint {joint}{back}{pins} }}"));
        let long = self.one_of(&["tenon { long 3/4 in }", "tenon { long 18 mm; thick 6 mm }"]);
        self.line(&format!("frame {{ stock maple; joint {long}"));
        self.line("rail top { wide 1-1/2 in }; rail bottom { wide 1-3/4 in }");
        let shelved = |own: &mut Self, kind: &str, hung: &str| {
            let shelf = own.one_of(&[
                "",
                "shelf { adjustable 1 }",
                "shelf { adjustable 2 }",
                "shelf { fixed 1 }",
            ]);
            if !shelf.is_empty() {
                own.is("shelf between posts");
            }
            own.names += 1;
            let end = if hung.is_empty() { "" } else { ";" };
            format!("{kind} c{} {{ share 1; {hung}{end} {shelf} }}", own.names)
        };
        let (kind, hung) =
            self.one_of(&[("doors", ""), ("door", "hung left"), ("door", "hung right")]);
        self.is("doors between posts");
        let first = shelved(self, kind, hung);
        let second = shelved(self, "open", "");
        let third = self.one_of(&[
            "",
            "rail { wide 1 in }",
            "divider { joint dado }",
            "divider { joint pocket }",
            "stile { wide 1-1/2 in; partition }",
        ]);
        match third {
            "" => self.line(&format!("down {{ {first} }} }}")),
            "rail { wide 1 in }" => self.line(&format!("down {{ {second}; {third}; {first} }} }}")),
            "stile { wide 1-1/2 in; partition }" => {
                self.line(&format!("across {{ {first}; {third}; {second} }} }}"));
            }
            _ => {
                self.is("divider between posts");
                let list = self.one_of(&["down", "across"]);
                self.line(&format!("{list} {{ {second}; {third}; {first} }} }}"));
            }
        }
        let hinge = self.one_of(&["leaf", "leaf", "leaf", "cup"]);
        let build = self.one_of(&[
            "build slab",
            "build panel { stile 2-1/4 in; rail 2-1/4 in; panel-stock thin }",
        ]);
        self.line(&format!(
            "fronts {{ stock cherry; set inset; {build}; hinge {hinge}; pull knob }}"
        ));
    }

    /// Drawers on bought slides, each on a packer from post to post.
    fn bureau(&mut self, slide: &str) {
        self.is("slides between posts");
        let long = self.one_of(&["tenon { long 3/4 in }", "tenon { long 18 mm; thick 6 mm }"]);
        self.line("partitions { stock ply; joint screw }");
        self.line(&format!("frame {{ stock maple; joint {long}"));
        self.line("rail top { wide 1-1/2 in }; rail bottom { wide 1-3/4 in }");
        self.line("down {");
        let rail =
            self.one_of(&["rail { wide 1-1/4 in; shelf none }", "rail { wide 30 mm; shelf none }"]);
        self.line("drawer n0 { high 5 in }");
        self.line(rail);
        if self.flip() {
            self.line("drawer n1 { share 1 }");
            self.line(rail);
        }
        self.line("drawer n2 { share 1 }");
        self.line("} }");
        self.line("fronts { stock cherry; set inset; build slab; pull knob }");
        let joint = self.one_of(&["dovetail", "rabbet", "butt"]);
        self.line(&format!("drawers {{ stock birch; bottom-stock thin; slide {slide}; groove {{ up 13 mm; deep 1/4 in }}; joint {joint} }}"));
    }

    /// Drawers on wood between guides, over web frames that the posts hold.
    fn chest(&mut self) {
        self.is("drawers between posts");
        let web = self.one_of(&[
            "build web { panel-stock thin }",
            "build web { wide 3 in; tenon 1/2 in }",
            "build web { wide 65 mm; panel-stock thin }",
        ]);
        self.line("partitions { stock ply; joint screw }");
        self.line(&format!("shelves {{ stock maple; {web} }}"));
        let long = self.one_of(&["tenon { long 3/4 in }", "tenon { long 18 mm; thick 6 mm }"]);
        self.line(&format!("frame {{ stock maple; joint {long}"));
        self.line("rail top { wide 1-1/2 in }; rail bottom { wide 1-3/4 in }");
        self.line("down {");
        let rail = self.one_of(&["rail { wide 1-1/4 in }", "rail { wide 30 mm }"]);
        if self.flip() {
            self.line("across small { high 5 in; drawer n0 { share 1 }; stile { wide 1-1/2 in }; drawer n1 { same n0 } }");
            self.line(rail);
        }
        self.line("drawer n2 { share 1 }");
        if self.flip() {
            self.line(rail);
            self.line("drawer n3 { share 1 }");
        }
        self.line("} }");
        self.line("fronts { stock cherry; set inset; build slab; pull knob }");
        let joint = self.one_of(&["dovetail", "rabbet", "butt"]);
        self.line(&format!("drawers {{ stock birch; bottom-stock thin; slide wood; groove {{ up 1/2 in; deep 1/4 in }}; joint {joint} }}"));
    }
}
