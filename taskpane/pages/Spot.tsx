export { SpotCard as Spot } from '../components/SpotCard';
