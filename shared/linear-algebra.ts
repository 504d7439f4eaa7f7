import {
  CholeskyDecomposition,
  Matrix,
  QrDecomposition,
  SingularValueDecomposition,
  inverse as inverseOf,
  pseudoInverse as pseudoInverseOf,
} from 'ml-matrix'
import { assert, present } from './assert.ts'

/** Below this share of the strongest effect of a matrix, an effect is rounding. */
const RANK_TOLERANCE = 1e-10

/** A matrix as a list of its rows, all of one length. */
export type Rows = readonly (readonly number[])[]

/**
 * The inverse of a square matrix.
 *
 * Shape: n rows of n, not singular. Units: the inverse ones. Source: the definition.
 */
export function inverse(matrix: Rows): number[][] {
  return finiteRows(inverseOf(squareFrom(matrix)))
}

/**
 * The inverse of a covariance, or of an information, which is then the covariance.
 *
 * By its triangular root, so that the inverse is symmetric and a matrix without one is found out.
 *
 * Shape: as `choleskyRoot`. Units: the inverse ones. Source: the definition.
 */
export function inverseOfPositive(covariance: Rows): number[][] {
  const decomposition = new CholeskyDecomposition(symmetricFrom(covariance))
  assert(decomposition.isPositiveDefinite(), 'a covariance has variance in every direction')
  const found = finiteRows(decomposition.solve(Matrix.eye(covariance.length)))
  return found.map((row, i) => row.map((one, j) => (one + (found[j]?.[i] ?? one)) / 2))
}

/**
 * The Moore-Penrose inverse, for a matrix that may have no inverse of its own.
 *
 * Directions along which the matrix does nothing are left out instead of blowing up.
 *
 * Shape: any; rows and columns change places. Units: the inverse ones.
 * Source: R. Penrose, Proc. Cambridge Phil. Soc. 51 (1955), 406-413; by singular values.
 */
export function pseudoInverse(matrix: Rows): number[][] {
  return finiteRows(pseudoInverseOf(matrixFrom(matrix), RANK_TOLERANCE))
}

/**
 * The vector that comes nearest, in the sum of squares, to solving a tall system of equations.
 *
 * By orthogonal turns of the matrix itself, because its square would lose half of the digits.
 *
 * Shape: at least as many rows as columns, of full rank; a number for each row.
 * Source: G. H. Golub, Numerische Mathematik 7 (1965), 206-216 (from memory).
 * Units: those of the problem.
 */
export function leastSquaresSolution(matrix: Rows, right: readonly number[]): number[] {
  const tall = matrixFrom(matrix)
  assert(tall.rows >= tall.columns, 'there is an equation for each unknown')
  assert(right.length === tall.rows, 'the right side has a number for each row')
  const turned = new QrDecomposition(tall)
  assert(turned.isFullRank(), 'the columns say different things')
  return turned.solve(Matrix.columnVector(right.map(finite))).to1DArray()
}

/**
 * How much larger the strongest effect of a matrix is than its weakest; infinite if one is lost.
 *
 * Shape: any with at least one number. Units: a ratio of one or more.
 * Source: the ratio of the largest to the smallest singular value, by definition.
 */
export function conditionNumber(matrix: Rows): number {
  const { diagonal } = new SingularValueDecomposition(matrixFrom(matrix))
  const largest = Math.max(...diagonal)
  const smallest = Math.min(...diagonal)
  return smallest > 0 ? largest / smallest : Number.POSITIVE_INFINITY
}

/**
 * The lower triangular root of a covariance: times its own mirror image it gives the matrix back.
 *
 * Shape: n rows of n, symmetric, every variance above zero. Units: the roots of those given.
 * Source: A.-L. Cholesky, in C. Benoit, Bulletin géodésique 2 (1924), 67-77 (from memory).
 */
export function choleskyRoot(covariance: Rows): number[][] {
  const decomposition = new CholeskyDecomposition(symmetricFrom(covariance))
  assert(decomposition.isPositiveDefinite(), 'a covariance has variance in every direction')
  return decomposition.lowerTriangularMatrix.to2DArray()
}

/**
 * The logarithm of the determinant of a covariance, which measures its volume.
 *
 * Shape: as `choleskyRoot`. Units: natural logarithm.
 * Source: twice the sum of the logarithms along the diagonal of the root.
 */
export function logDeterminant(covariance: Rows): number {
  const root = choleskyRoot(covariance)
  return root.reduce((sum, row, index) => sum + 2 * Math.log(row[index] ?? 0), 0)
}

/**
 * A matrix times a vector.
 *
 * Shape: n rows of m; m numbers; to n numbers. Units: the products. Source: the definition.
 */
export function timesVector(matrix: Rows, vector: readonly number[]): number[] {
  return matrix.map((row) => {
    assert(row.length === vector.length, 'the vector has a number for each column')
    return row.reduce((sum, one, index) => sum + one * (vector[index] ?? 0), 0)
  })
}

/**
 * The sum of the products of the numbers of two vectors.
 *
 * Shape: two vectors of one length. Units: the products. Source: the definition.
 */
export function innerProduct(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, index) => sum + value * (other[index] ?? 0), 0)
}

/**
 * A matrix times another.
 *
 * Shape: n rows of m; m rows of k; to n rows of k. Units: the products. Source: the definition.
 */
export function timesMatrix(one: Rows, other: Rows): number[][] {
  return matrixFrom(one).mmul(matrixFrom(other)).to2DArray()
}

/** Rows and columns changed. Units: as given. Source: the definition. */
export function transposed(matrix: Rows): number[][] {
  const width = present(matrix[0], 'a matrix has a row').length
  return Array.from({ length: width }, (_, column) => matrix.map((row) => row[column] ?? 0))
}

/**
 * Orthonormal vectors that stand across all columns of a matrix: with none of them is anything shared.
 *
 * Shape: n rows; to vectors of n numbers, as many as the columns leave of n. Units: none.
 * Source: the left singular vectors of singular value zero, G. H. Golub & W. Kahan, SIAM J. Numer. Anal.
 * B 2 (1965), 205-224 (from memory).
 */
export function vectorsAcross(matrix: Rows): number[][] {
  // Columns of zeros reach nothing, and make the vectors as many as there are rows.
  const width = present(matrix[0], 'a matrix has a row').length
  const padding = Array.from({ length: Math.max(0, matrix.length - width) }, () => 0)
  const padded = matrixFrom(matrix.map((row) => [...row, ...padding]))
  const { diagonal, leftSingularVectors } = new SingularValueDecomposition(padded, {
    autoTranspose: true,
  })
  const least = RANK_TOLERANCE * Math.max(...diagonal)
  return leftSingularVectors
    .transpose()
    .to2DArray()
    .filter((_, index) => (diagonal[index] ?? 0) <= least)
}

/**
 * Which rows of a matrix say something that those before them do not say together.
 *
 * By elimination: from each row is taken what those kept before explain of it, and what is left decides.
 *
 * Shape: any; to places of rows, ascending. Units: none.
 * Source: the elimination of Gauss, pivoting on the largest number of each row.
 */
export function independentRows(matrix: Rows): number[] {
  // Against the largest number of all, because a row may hold nothing but rounding.
  const largest = Math.max(...matrix.map((row) => Math.max(...row.map(Math.abs))))
  const kept: { place: number; rest: readonly number[]; pivot: number }[] = []
  matrix.forEach((row, place) => {
    let rest = row.map(finite)
    for (const { rest: other, pivot } of kept) {
      const times = (rest[pivot] ?? 0) / (other[pivot] ?? 1)
      if (times !== 0) rest = rest.map((one, column) => one - times * (other[column] ?? 0))
    }
    const sizes = rest.map(Math.abs)
    const pivot = sizes.indexOf(Math.max(...sizes))
    if ((sizes[pivot] ?? 0) > RANK_TOLERANCE * largest) kept.push({ place, rest, pivot })
  })
  return kept.map(({ place }) => place)
}

function matrixFrom(rows: Rows): Matrix {
  const width = present(rows[0], 'a matrix has a row').length
  assert(width > 0, 'a matrix has a column')
  assert(
    rows.every((row) => row.length === width),
    'the rows of a matrix are of one length',
  )
  return new Matrix(rows.map((row) => row.map(finite)))
}

function squareFrom(rows: Rows): Matrix {
  const matrix = matrixFrom(rows)
  assert(matrix.rows === matrix.columns, 'this matrix is square')
  return matrix
}

/** Rounding leaves the two halves of a product a hair apart; their middle is taken. */
function symmetricFrom(rows: Rows): Matrix {
  const matrix = squareFrom(rows)
  const halves = Matrix.sub(matrix, matrix.transpose())
  const largest = Math.max(Math.abs(matrix.max()), Math.abs(matrix.min()))
  assert(Math.max(halves.max(), 0) <= ROUNDING * largest, 'a covariance is symmetric')
  return Matrix.add(matrix, matrix.transpose()).mul(1 / 2)
}

/** How far apart, of the largest number in a matrix, rounding may leave its two halves. */
const ROUNDING = 1e-9

function finiteRows(matrix: Matrix): number[][] {
  return matrix.to2DArray().map((row) => row.map(finite))
}

function finite(value: number): number {
  assert(Number.isFinite(value), 'a matrix is made of finite numbers')
  return value
}
