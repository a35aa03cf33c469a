//! How long ago each colour of a row was worked, and what may be worked next.
//!
//! A row is walked stitch by stitch. All that bears on its future is, for each colour, how many stitches have passed
//! since its last one: its *age*, 0 straight after a stitch of it. An age beyond the longest float allowed ends the
//! way in a ring; in a line the colour may still be finished with for good. Equal ages mean equal futures, so they
//! are numbered once and what follows from them is remembered.

use std::collections::BTreeMap;

/// Stitches since a colour's last one, or [`UNSEEN`] or [`FINISHED`].
pub(super) type Age = u16;
/// Not worked yet: nothing floats before a colour's first stitch in a line.
pub(super) const UNSEEN: Age = Age::MAX;
/// Floated too long to come back: in a line nothing floats after a colour's last stitch.
pub(super) const FINISHED: Age = Age::MAX - 1;

/// Number of a set of ages.
pub(super) type State = usize;

/// There is no way on.
const NOWHERE: State = State::MAX;
/// Not worked out yet.
const UNKNOWN: State = State::MAX - 1;

/// A set of colours, one bit each.
pub(super) type Colours = u32;

/// The ages met so far and the ways between them.
pub(super) struct Ages {
    colours: usize,
    longest: Age,
    may_finish: bool,
    all: Vec<Box<[Age]>>,
    numbers: BTreeMap<Box<[Age]>, State>,
    next: BTreeMap<Colours, Vec<State>>,
}

impl Ages {
    /// For rows of `colours` colours whose floats pass `longest` stitches at most. `may_finish`: in a line.
    pub(super) fn new(colours: usize, longest: usize, may_finish: bool) -> Self {
        Self {
            colours,
            longest: Age::try_from(longest)
                .unwrap_or(FINISHED - 1)
                .min(FINISHED - 1),
            may_finish,
            all: Vec::new(),
            numbers: BTreeMap::new(),
            next: BTreeMap::new(),
        }
    }

    /// The number of these ages.
    pub(super) fn number(&mut self, ages: &[Age]) -> State {
        if let Some(&number) = self.numbers.get(ages) {
            return number;
        }
        let number = self.all.len();
        self.all.push(ages.into());
        self.numbers.insert(ages.into(), number);
        number
    }

    /// The ages of this number.
    pub(super) fn of(&self, state: State) -> &[Age] {
        self.all.get(state).map_or(&[], |ages| ages)
    }

    /// The longest float allowed.
    pub(super) fn longest(&self) -> usize {
        usize::from(self.longest)
    }

    /// Whether a colour may be finished with before the row ends.
    pub(super) fn may_finish(&self) -> bool {
        self.may_finish
    }

    /// How many sets of ages are known.
    pub(super) fn len(&self) -> usize {
        self.all.len()
    }

    /// After a stitch of `colour`, with the square of the float that it ends. Colours outside `here` do not age:
    /// they are dealt with where the stretch without them begins.
    pub(super) fn after(
        &mut self,
        state: State,
        colour: usize,
        here: Colours,
    ) -> Option<(State, u64)> {
        let age = *self.of(state).get(colour)?;
        let square = match age {
            UNSEEN => 0,
            FINISHED => return None,
            age => u64::from(age) * u64::from(age),
        };
        let slot = state * self.colours + colour;
        let table = self.next.entry(here).or_default();
        if table.len() <= slot {
            table.resize((state + 1) * self.colours, UNKNOWN);
        }
        let known = table.get(slot).copied().unwrap_or(UNKNOWN);
        let next = if known == UNKNOWN {
            let found = self.work_out(state, colour, here);
            if let Some(place) = self.next.entry(here).or_default().get_mut(slot) {
                *place = found;
            }
            found
        } else {
            known
        };
        (next != NOWHERE).then_some((next, square))
    }

    fn work_out(&mut self, state: State, colour: usize, here: Colours) -> State {
        let mut ages: Vec<Age> = self.of(state).to_vec();
        for (other, age) in ages.iter_mut().enumerate() {
            *age = match *age {
                _ if other == colour => 0,
                age if here & (1 << other) == 0 => age,
                UNSEEN => UNSEEN,
                FINISHED => FINISHED,
                age if age < self.longest => age + 1,
                _ if self.may_finish => FINISHED,
                _ => return NOWHERE,
            };
        }
        self.number(&ages)
    }
}
