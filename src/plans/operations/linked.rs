//! What hangs together by its joints, and what it would fall apart without.

/// Some of the groups, by their places.
#[derive(Clone)]
pub(super) struct Picked {
    within: Vec<bool>,
    count: usize,
}

impl Picked {
    /// None of so many.
    pub(super) fn none_of(count: usize) -> Self {
        Self { within: vec![false; count], count: 0 }
    }

    /// All of so many.
    pub(super) fn all_of(count: usize) -> Self {
        Self { within: vec![true; count], count }
    }

    pub(super) fn len(&self) -> usize {
        self.count
    }

    pub(super) fn has(&self, index: usize) -> bool {
        self.within.get(index) == Some(&true)
    }

    /// In the order of their places.
    pub(super) fn iter(&self) -> impl Iterator<Item = usize> {
        self.within.iter().enumerate().filter(|(_, within)| **within).map(|(index, _)| index)
    }

    /// False where it was in it already.
    pub(super) fn add(&mut self, index: usize) -> bool {
        let is_new = !std::mem::replace(&mut self.within[index], true);
        self.count += usize::from(is_new);
        is_new
    }

    /// False where it was not in it.
    pub(super) fn remove(&mut self, index: usize) -> bool {
        let was = std::mem::replace(&mut self.within[index], false);
        self.count -= usize::from(was);
        was
    }

    /// These without some.
    pub(super) fn without(&self, some: &Self) -> Self {
        let mut rest = self.clone();
        some.iter().for_each(|index| {
            rest.remove(index);
        });
        rest
    }
}

/// Groups, by their places, and the others that each has a joint with.
pub(super) struct Linked {
    /// Each once, in their order.
    beside: Vec<Vec<usize>>,
}

impl Linked {
    /// So many groups with joints between these.
    pub(super) fn new(count: usize, joints: impl Iterator<Item = [usize; 2]>) -> Self {
        let mut beside: Vec<Vec<usize>> = vec![Vec::new(); count];
        for [one, other] in joints.filter(|[one, other]| one != other) {
            beside[one].push(other);
            beside[other].push(one);
        }
        for own in &mut beside {
            own.sort_unstable();
            own.dedup();
        }
        Self { beside }
    }

    /// True where these groups are joined, one by the other.
    pub(super) fn hangs_together(&self, groups: &Picked) -> bool {
        let mut apart = groups.clone();
        let mut open: Vec<usize> = groups.iter().take(1).collect();
        open.iter().for_each(|index| {
            apart.remove(*index);
        });
        while let Some(index) = open.pop() {
            open.extend(self.beside[index].iter().filter(|other| apart.remove(**other)));
        }
        apart.len() == 0
    }

    /// True for each of these groups without which the others hang together. One walk over
    /// the joints tells it of all: a group is not spare where what was first reached
    /// through it is joined to nothing that was reached before it.
    pub(super) fn spare(&self, groups: &Picked) -> Picked {
        let mut spare = groups.clone();
        // When each was reached, from 1 on, and the first that it is joined to, or what was
        // reached through it.
        let mut reached = vec![0; self.beside.len()];
        let mut back = reached.clone();
        let (mut count, mut lots) = (0, 0);
        for root in groups.iter() {
            if reached[root] > 0 {
                continue;
            }
            lots += 1;
            let mut branches = 0;
            let mut way = vec![(root, self.beside[root].iter())];
            while let Some((index, next)) = way.last_mut() {
                let index = *index;
                if reached[index] == 0 {
                    count += 1;
                    (reached[index], back[index]) = (count, count);
                }
                match next.find(|other| groups.has(**other)) {
                    Some(other) if reached[*other] == 0 => {
                        way.push((*other, self.beside[*other].iter()));
                    }
                    Some(other) => back[index] = back[index].min(reached[*other]),
                    None => {
                        way.pop();
                        let Some((from, _)) = way.last() else { break };
                        back[*from] = back[*from].min(back[index]);
                        if *from == root {
                            branches += 1;
                        } else if back[index] >= reached[*from] {
                            spare.remove(*from);
                        }
                    }
                }
            }
            if branches > 1 {
                spare.remove(root);
            }
        }
        if lots > 1 {
            // Only without one of two that has no joint is the rest one.
            let alone = |index: usize| self.beside[index].iter().all(|other| !groups.has(*other));
            for index in groups.iter().filter(|index| lots > 2 || !alone(*index)) {
                spare.remove(index);
            }
            for index in groups.iter().filter(|index| lots == 2 && alone(*index)) {
                spare.add(index);
            }
        }
        spare
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spare(count: usize, joints: &[[usize; 2]], groups: &[usize]) -> Vec<usize> {
        let linked = Linked::new(count, joints.iter().copied());
        let mut picked = Picked::none_of(count);
        assert!(groups.iter().all(|index| picked.add(*index)));
        let spare = linked.spare(&picked);
        for index in groups {
            let mut rest = picked.clone();
            rest.remove(*index);
            assert_eq!(linked.hangs_together(&rest), spare.has(*index), "{index} of {groups:?}");
        }
        spare.iter().collect()
    }

    /// A row of boards falls apart without one between its ends, a ring without none.
    #[test]
    fn what_holds_two_others_is_not_spare() {
        let row = [[0, 1], [1, 2], [2, 3]];
        assert_eq!(spare(4, &row, &[0, 1, 2, 3]), [0, 3]);
        assert_eq!(spare(4, &[[0, 1], [1, 2], [2, 3], [3, 0]], &[0, 1, 2, 3]), [0, 1, 2, 3]);
        assert_eq!(spare(4, &row, &[1]), [1]);
    }

    /// Two rings with one board in common, and a tail on one of them.
    #[test]
    fn what_two_rings_share_is_not_spare() {
        let joints = [[0, 1], [1, 2], [2, 0], [2, 3], [3, 4], [4, 2], [4, 5]];
        assert_eq!(spare(6, &joints, &[0, 1, 2, 3, 4, 5]), [0, 1, 3, 5]);
        assert_eq!(spare(6, &joints, &[0, 1, 2, 3, 5]), [5]);
        assert_eq!(spare(6, &joints, &[0, 3, 5]), [] as [usize; 0]);
    }
}
