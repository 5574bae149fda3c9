//! Which boards a channel takes, and how well each fits.

use super::board::{Board, Cut, Sort, whole};
use super::packet::{JointKind, Packet};
use super::wood::{NOTHING, common};

/// A board in a channel.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mated {
    pub(super) guest: usize,
    /// How wide the channel is that takes it.
    pub(super) wide: f64,
}

/// The boards that a channel takes and that fill it by their thickness. One that
/// has play in its groove by design is none.
pub(super) fn mated(packet: &Packet, boards: &[Board<'_>], host: usize, cut: &Cut) -> Vec<Mated> {
    let Some(run) = cut.run.filter(|_| cut.sort == Sort::Channel) else { return Vec::new() };
    let board = &boards[host];
    let across = 3 - run - cut.face.axis;
    let (along, channel) = (board.along(across), board.placed(&cut.space));
    let wide = channel[along][1] - channel[along][0];
    // A place may be off by half a mark, and by as much as the fence.
    let reach = packet.job.unit.mm(1.0) + packet.job.tape.exact;
    let most = packet.job.unit.mm(0.1) + NOTHING;
    let mut found: Vec<Mated> = Vec::new();
    for joint in &packet.joints {
        let let_in = matches!(
            joint.kind,
            JointKind::Dado | JointKind::Rabbet | JointKind::Floating | JointKind::Tenon
        );
        if !let_in || joint.into != board.part.mark {
            continue;
        }
        let Some(guest) = boards.iter().position(|own| own.part.mark == joint.part) else {
            continue;
        };
        let own = &boards[guest];
        let drawn = own.placed(&whole(own.drawn.size.map(|size| size.exact)));
        let within = (drawn[along][0] - channel[along][0]).abs() < reach
            && (drawn[along][1] - channel[along][1]).abs() < reach;
        let thick = own.drawn.size[2].exact;
        if own.along(2) == along
            && within
            && (wide - thick).abs() <= most
            && common(&channel, &drawn).is_some()
            && found.iter().all(|mated| mated.guest != guest)
        {
            found.push(Mated { guest, wide });
        }
    }
    found
}
