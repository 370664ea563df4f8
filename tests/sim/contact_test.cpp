#include "electrical/contact.h"

#include <gtest/gtest.h>

#include "support/tolerance.h"

namespace voltfall {
namespace {

TEST(Contact, ArcTakesThirteenVoltsAndMoreWithTheGap) {
  EXPECT_NEAR(arc_V(0.0), 13.0, rounding(13.0));
  EXPECT_NEAR(arc_V(2.0e-3), 18.0, rounding(18.0));
}

// The Norton pair of an arc: at 100 A it takes its 13 V against the current, whichever way that flows.
TEST(Contact, ArcStandsAgainstTheCurrent) {
  for (const double current_A : {100.0, -100.0}) {
    const ContactBranch arc = contact_branch(ContactState::arcing, 3.0e-4, 1.0e7, 0.0, current_A);
    const double volts = (current_A - arc.source_A) / arc.siemens;
    EXPECT_NEAR(volts, current_A > 0.0 ? 13.0 : -13.0, 0.2);  // and a small slope
  }
}

TEST(Contact, ConductsClosedAndInsulatesOpen) {
  EXPECT_NEAR(contact_branch(ContactState::closed, 3.0e-4, 1.0e7, 0.0, 0.0).siemens, 1.0 / 3.0e-4, 1.0e-6);
  EXPECT_NEAR(contact_branch(ContactState::open, 3.0e-4, 1.0e7, 1.0e-3, 0.0).siemens, 1.0e-7, 1.0e-12);
}

TEST(Contact, DrawsAnArcOnlyWhenItPartsUnderCurrent) {
  EXPECT_EQ(contact_next(ContactState::closed, false, 200.0), ContactState::arcing);
  EXPECT_EQ(contact_next(ContactState::closed, false, 0.1), ContactState::open);
  EXPECT_EQ(contact_next(ContactState::arcing, false, 0.1), ContactState::open);
  EXPECT_EQ(contact_next(ContactState::arcing, true, 200.0), ContactState::closed);
  EXPECT_EQ(contact_next(ContactState::open, false, 200.0), ContactState::open);
}

}  // namespace
}  // namespace voltfall
