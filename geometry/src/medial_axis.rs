//! Centre lines of the ground and of the letter, with the clearance along them.
